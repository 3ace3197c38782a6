package org.benchstroke.web;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.InputStream;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.KeyStore;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.TimeUnit;
import javax.net.ssl.SSLContext;
import javax.net.ssl.TrustManagerFactory;
import org.benchstroke.app.WrongRequest;
import org.benchstroke.core.clock.SystemClock;
import org.benchstroke.web.access.Door;
import org.benchstroke.web.access.Operators;
import org.benchstroke.web.access.SignInPages;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The screen over TLS, with a certificate as the JDK's own tool makes it. */
class CertificateTest {
  private static final String PASSPHRASE = "a made-up one";

  @TempDir Path folder;

  private Path made() throws Exception {
    Path file = folder.resolve("bench.p12");
    Process tool =
        new ProcessBuilder(
                System.getProperty("java.home") + "/bin/keytool",
                "-genkeypair",
                "-keyalg",
                "EC",
                "-alias",
                "bench",
                "-dname",
                "CN=localhost",
                "-ext",
                "SAN=dns:localhost",
                "-storetype",
                "PKCS12",
                "-storepass",
                PASSPHRASE,
                "-keystore",
                file.toString())
            .redirectErrorStream(true)
            .start();
    String said = new String(tool.getInputStream().readAllBytes());
    assertThat(tool.waitFor(60, TimeUnit.SECONDS)).isTrue();
    assertThat(tool.exitValue()).as(said).isZero();
    return file;
  }

  private static SSLContext trusting(Path file) throws Exception {
    KeyStore store = KeyStore.getInstance("PKCS12");
    try (InputStream in = Files.newInputStream(file)) {
      store.load(in, PASSPHRASE.toCharArray());
    }
    KeyStore trusted = KeyStore.getInstance("PKCS12");
    trusted.load(null, null);
    trusted.setCertificateEntry("bench", store.getCertificate("bench"));
    TrustManagerFactory factory = TrustManagerFactory.getInstance("PKIX");
    factory.init(trusted);
    SSLContext context = SSLContext.getInstance("TLS");
    context.init(null, factory.getTrustManagers(), null);
    return context;
  }

  @Test
  void browsersReachItOverTlsAndTheCookieIsForTlsOnly() throws Exception {
    Path file = made();
    SystemClock clock = SystemClock.realTime();
    Door door =
        new Door(new Operators(Optional.empty(), clock), Optional.empty(), List.of(), true, clock);
    Screen.Content content = new Screen.Content("Invented", true, List.of(new SignInPages(door)));
    try (Screen screen =
        Screen.open(
            "127.0.0.1", 0, Optional.of(Certificate.read(file, PASSPHRASE)), door, content)) {
      assertThat(screen.url()).startsWith("https://");
      HttpResponse<String> answer =
          HttpClient.newBuilder()
              .sslContext(trusting(file))
              .build()
              .send(
                  HttpRequest.newBuilder(
                          URI.create("https://localhost:" + screen.port() + "/sign-in"))
                      .build(),
                  HttpResponse.BodyHandlers.ofString());
      assertThat(answer.statusCode()).isEqualTo(200);
      assertThat(answer.headers().firstValue("Set-Cookie").orElse(""))
          .startsWith("__Host-benchstroke-")
          .contains("Secure", "HttpOnly", "SameSite=Strict");
      assertThat(answer.sslSession().orElseThrow().getProtocol()).isEqualTo("TLSv1.3");
    }
  }

  @Test
  void whatIsNoSuchFileIsToldInALine() throws Exception {
    Path text = Files.writeString(folder.resolve("text.p12"), "no certificate");
    for (Path file : List.of(folder.resolve("none.p12"), text)) {
      assertThatThrownBy(() -> Certificate.read(file, ""))
          .isInstanceOf(WrongRequest.class)
          .hasMessageContaining("can't be read as PKCS#12");
    }
  }
}
