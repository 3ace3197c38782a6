package org.benchstroke.web;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowable;

import java.io.IOException;
import java.net.Socket;
import java.net.SocketException;
import java.net.SocketTimeoutException;
import java.net.URLEncoder;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.atomic.AtomicInteger;
import org.benchstroke.web.Caller.Answer;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** What the screen refuses, over real sockets. */
class SecurityTest {
  private static final AtomicInteger DONE = new AtomicInteger();

  @TempDir static Path folder;
  private static TestScreen screen;

  private Caller caller;

  /** One address of each right, whatever other pages there are. */
  private static final class Probes implements Pages {
    @Override
    public void register(Routes routes) {
      routes.get("/probe/read", Right.READ, Visit::done);
      routes.post("/probe/drive", Right.DRIVE, visit -> done(visit));
      routes.get("/probe/authorise", Right.AUTHORISE, Visit::done);
      routes.post(
          "/probe/authorise",
          Right.AUTHORISE,
          visit -> {
            DONE.incrementAndGet();
            visit.json("\"" + visit.authoriser() + " for " + visit.who().name() + "\"");
          });
      routes.get(
          "/probe/file",
          Right.READ,
          visit -> visit.download(visit.query("name").orElse(""), "application/pdf", new byte[1]));
      routes.live("/probe/live", Right.DRIVE, visit -> new Silence());
      routes.get(
          "/probe/fails",
          Right.READ,
          visit -> {
            throw new IllegalStateException("the insides");
          });
    }

    private static void done(Visit visit) {
      DONE.incrementAndGet();
      visit.done();
    }
  }

  private static final class Silence implements Feed {
    @Override
    public Optional<News> next(long patienceMillis) throws InterruptedException {
      return Optional.of(new News("beat", "1"));
    }

    @Override
    public void close() {}
  }

  @BeforeAll
  static void open() throws Exception {
    screen = TestScreen.signedIn(folder, new Probes());
  }

  @AfterAll
  static void close() {
    screen.close();
  }

  @BeforeEach
  void fresh() {
    // Attempts of other tests are forgotten, and their sessions are over.
    screen.clock().forward(Duration.ofHours(13));
    caller = new Caller(screen.port());
    DONE.set(0);
  }

  private Caller ann() throws IOException {
    return in("Ann", TestScreen.ANN);
  }

  private static Caller in(String name, String secret) throws IOException {
    Caller caller = new Caller(screen.port());
    assertThat(caller.signIn(name, secret).status()).isEqualTo(303);
    return caller;
  }

  private static String example(String path) {
    return path.replaceAll("\\{[^}]*}", "1");
  }

  @Test
  void nobodyUnknownGetsAnythingOfAnyAddress() throws IOException {
    assertThat(screen.routes()).hasSizeGreaterThan(5);
    for (Routes.Route route : screen.routes()) {
      if (route.right().isEmpty()) {
        continue;
      }
      Answer page =
          route.method().equals("GET")
              ? caller.get(example(route.path()))
              : caller.post(example(route.path()), Map.of());
      assertThat(page.status()).as(route.toString()).isIn(302, 401);
      assertThat(page.body()).as(route.toString()).hasSizeLessThan(40);
      Answer data =
          new Caller(screen.port()).with("Accept", "text/event-stream").get(example(route.path()));
      assertThat(data.status()).as(route.toString()).isIn(401, 405);
    }
    assertThat(DONE).hasValue(0);
  }

  @Test
  void whoMayReadMayDoNothing() throws IOException {
    Caller ben = in("Ben", TestScreen.BEN);
    assertThat(ben.get("/probe/read").status()).isEqualTo(204);
    for (Routes.Route route : screen.routes()) {
      if (route.right().isEmpty() || route.right().get() == Right.READ) {
        continue;
      }
      Answer answer =
          route.method().equals("GET")
              ? ben.get(example(route.path()))
              : ben.post(example(route.path()), Map.of());
      assertThat(answer.status()).as(route.toString()).isEqualTo(403);
    }
    assertThat(DONE).hasValue(0);
  }

  @Test
  void whoMayDriveAuthorisesNothing() throws IOException {
    Caller ann = ann();
    assertThat(ann.post("/probe/drive", Map.of()).status()).isEqualTo(204);
    DONE.set(0);
    for (Routes.Route route : screen.routes()) {
      if (!route.right().equals(Optional.of(Right.AUTHORISE))) {
        continue;
      }
      String path = example(route.path());
      Answer answer =
          route.method().equals("GET")
              ? ann.get(path)
              : ann.post(path, Map.of("supervisor", "Ann", "pin", TestScreen.ANN));
      assertThat(answer.status()).as(route.toString()).isEqualTo(403);
    }
    assertThat(DONE).hasValue(0);
  }

  @Test
  void aSupervisorAuthorisesByPinWhereSomebodyElseIsSignedIn() throws IOException {
    Caller ann = ann();
    Answer done =
        ann.post("/probe/authorise", Map.of("supervisor", "c. instance", "pin", TestScreen.CLEO));
    assertThat(done.body()).isEqualTo("\"C. Instance for Ann\"");
    Caller cleo = in("C. Instance", TestScreen.CLEO);
    assertThat(cleo.get("/probe/authorise").status()).isEqualTo(204);
    // Signed in, but the PIN is asked for all the same.
    assertThat(cleo.post("/probe/authorise", Map.of()).status()).isEqualTo(403);
    assertThat(
            cleo.post("/probe/authorise", Map.of("supervisor", "C. Instance", "pin", "482913"))
                .status())
        .isEqualTo(403);
    assertThat(DONE).hasValue(1);
  }

  @ParameterizedTest
  @CsvSource({
    "Origin, http://other.example",
    "Origin, null",
    "Origin, http://127.0.0.1:1",
    "Sec-Fetch-Site, cross-site",
    "Sec-Fetch-Site, same-site",
    "Sec-Fetch-Site, none"
  })
  void whatAnotherPageSendsIsRefusedTokenOrNot(String header, String value) throws IOException {
    Caller ann = ann();
    Map<String, String> token = Map.of("token", ann.token());
    ann.with(header, value);
    assertThat(ann.postOnly("/probe/drive", token).status()).isEqualTo(403);
    assertThat(ann.postOnly("/sign-out", token).status()).isEqualTo(403);
    assertThat(DONE).hasValue(0);
    ann.with(header, "");
    ann.with("Origin", "http://127.0.0.1:" + screen.port()).with("Sec-Fetch-Site", "same-origin");
    assertThat(ann.postOnly("/probe/drive", token).status()).isEqualTo(204);
  }

  @Test
  void withoutTheTokenOfThisBrowserNothingIsDone() throws IOException {
    Caller ann = ann();
    for (String token : List.of("", "x", new Caller(screen.port()).token(), ann().token())) {
      assertThat(ann.postOnly("/probe/drive", Map.of("token", token)).status()).isEqualTo(403);
    }
    assertThat(ann.postOnly("/probe/drive", Map.of()).status()).isEqualTo(403);
    assertThat(caller.postOnly("/sign-in", Map.of("name", "Ann", "pin", TestScreen.ANN)).status())
        .isEqualTo(403);
    assertThat(DONE).hasValue(0);
  }

  @ParameterizedTest
  @ValueSource(
      strings = {"rebound.example", "localhost.rebound.example:80", "10.0.0.1", "127.0.0.2"})
  void aNameThatIsNotOursIsRefusedWithoutACookie(String host) throws IOException {
    Answer answer = ann().with("Host", host).get("/");
    assertThat(answer.status()).isEqualTo(421);
    assertThat(answer.headers("Set-Cookie")).isEmpty();
    assertThat(answer.body()).contains("serve --name").doesNotContain("token");
  }

  @Test
  void everyAnswerCarriesItsHeaders() throws IOException {
    Caller ann = ann();
    for (String path :
        List.of("/", "/sign-in", "/nothing", "/static/screen.css", "/probe/fails", "/static/no")) {
      Answer answer = ann.get(path);
      String policy = answer.header("Content-Security-Policy");
      assertThat(policy)
          .as(path)
          .contains("default-src 'none'", "script-src 'self'", "style-src 'self'")
          .contains("frame-ancestors 'none'", "base-uri 'none'", "form-action 'self'")
          .doesNotContain("unsafe", "*", "http:", "https:");
      assertThat(answer.header("X-Content-Type-Options")).as(path).isEqualTo("nosniff");
      assertThat(answer.header("Referrer-Policy")).as(path).isEqualTo("same-origin");
      assertThat(answer.header("Cross-Origin-Opener-Policy")).as(path).isEqualTo("same-origin");
      assertThat(answer.header("Cross-Origin-Resource-Policy")).as(path).isEqualTo("same-origin");
      assertThat(answer.header("Cache-Control")).as(path).containsAnyOf("no-store", "no-cache");
      assertThat(answer.header("Access-Control-Allow-Origin")).as(path).isEmpty();
      assertThat(answer.header("Server")).as(path).isEmpty();
    }
  }

  @Test
  void aPageHasNothingInline() throws IOException {
    Caller ann = ann();
    for (Routes.Route route : screen.routes()) {
      if (route.method().equals("GET") && !route.live()) {
        assertThat(ann.get(example(route.path())).body())
            .as(route.path())
            .doesNotContainPattern("<script(?![^>]* src=)[^>]*>[^<]*[a-z(]")
            .doesNotContainPattern("(?i)\\son[a-z]+=\"")
            .doesNotContainPattern("(?i)\\sstyle=\"")
            .doesNotContain("<style", "javascript:");
      }
    }
  }

  @Test
  void aFailureShowsNothingOfTheInside() throws IOException {
    Answer answer = ann().get("/probe/fails");
    assertThat(answer.body())
        .contains("The screen failed at this page", "report it")
        .doesNotContain("Exception", "\tat ", "org.benchstroke", ".java");
  }

  @Test
  void theCookieIsForThisServerAndForNoScript() throws IOException {
    Caller ann = ann();
    String cookie = ann.signIn("Ann", TestScreen.ANN).header("Set-Cookie");
    assertThat(cookie)
        .contains("HttpOnly", "SameSite=Strict", "Path=/")
        .startsWith("benchstroke-" + screen.port() + "=")
        .doesNotContainIgnoringCase("domain=")
        .doesNotContainIgnoringCase("expires=");
  }

  @Test
  void theIdIsAnotherOneAfterSigningInAndAfterSigningOut() throws IOException {
    caller.get("/sign-in");
    String before = caller.ids().get(0);
    assertThat(caller.signIn("Ann", TestScreen.ANN).status()).isEqualTo(303);
    String signedIn = caller.ids().get(0);
    assertThat(signedIn).isNotEqualTo(before).hasSize(43);
    String name = "benchstroke-" + screen.port();
    assertThat(new Caller(screen.port()).cookie(name, before).get("/").status()).isEqualTo(302);
    caller.signIn("Ann", TestScreen.ANN);
    assertThat(new Caller(screen.port()).cookie(name, signedIn).get("/").status()).isEqualTo(302);
    String again = caller.ids().get(0);
    assertThat(caller.post("/sign-out", Map.of()).status()).isEqualTo(303);
    assertThat(new Caller(screen.port()).cookie(name, again).get("/").status()).isEqualTo(302);
  }

  @Test
  void anIdThatSomebodyMadeUpOpensNothing() throws IOException {
    String name = "benchstroke-" + screen.port();
    for (String id : List.of("A".repeat(43), "x", "../../etc", "%00", "A".repeat(3000))) {
      assertThat(new Caller(screen.port()).cookie(name, id).get("/").status()).isEqualTo(302);
    }
  }

  @Test
  void aSessionEndsByItselfAndWithAnotherPin() throws Exception {
    Caller ann = ann();
    screen.clock().forward(Duration.ofMinutes(59));
    assertThat(ann.get("/probe/read").status()).isEqualTo(204);
    screen.clock().forward(Duration.ofMinutes(61));
    assertThat(ann.get("/probe/read").status()).isEqualTo(302);
  }

  @Test
  void wrongPinsAreSlowedAndTheRightOneServesAfterThat() throws IOException {
    Caller ann = new Caller(screen.port());
    for (int i = 0; i < 3; i++) {
      Answer wrong = ann.signIn("Ann", "000000");
      assertThat(wrong.status()).isEqualTo(403);
      assertThat(wrong.body()).contains("don't belong together").doesNotContain("000000");
    }
    Answer soon = ann.signIn("Ann", TestScreen.ANN);
    assertThat(soon.status()).isEqualTo(429);
    assertThat(soon.body()).contains("Wait 1 second,");
    assertThat(new Caller(screen.port()).signIn("Ben", TestScreen.BEN).status())
        .as("from the same address")
        .isEqualTo(429);
    screen.clock().forward(Duration.ofSeconds(1));
    assertThat(ann.signIn("Ann", TestScreen.ANN).status()).isEqualTo(303);
    assertThat(ann.get("/").status()).isEqualTo(200);
  }

  @Test
  void whoIsUnknownIsAnsweredAsWhoIsWrong() throws IOException {
    Answer unknown = caller.signIn("Nobody", TestScreen.ANN);
    assertThat(unknown.status()).isEqualTo(403);
    assertThat(unknown.body()).contains("don't belong together");
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "/static/../access/Door.class",
        "/static/..%2fscreen.css",
        "/static/%2e%2e/screen.css",
        "/static/%252e%252e%252fscreen.css",
        "/static/..%5c..%5cscreen.css",
        "/static/screen.css%00.js",
        "/static/.",
        "/static//etc/passwd",
        "/static/..;/screen.css",
        "/static/screen.css;x",
        "/%2e%2e/%2e%2e/etc/passwd",
        "/..%c0%af..%c0%afetc/passwd",
        "/static/logback.xml",
        "//127.0.0.1/static/screen.css"
      })
  void aPathIsTakenAsItIsOrNotAtAll(String path) throws IOException {
    Answer answer = ann().get(path);
    assertThat(answer.status()).isIn(400, 403, 404);
    assertThat(answer.body())
        .doesNotContain("root:", "--paper", "configuration", "Exception", "\tat ");
  }

  @Test
  void itGoesOnOnlyToAPageOfItsOwn() throws IOException {
    for (String next :
        List.of("//other.example/", "https://other.example/", "/\\other.example", "javascript:1")) {
      Answer in =
          new Caller(screen.port())
              .post("/sign-in", Map.of("name", "Ann", "pin", TestScreen.ANN, "next", next));
      assertThat(in.status()).isEqualTo(303);
      assertThat(in.header("Location")).as(next).isEqualTo("/");
    }
    Answer in =
        new Caller(screen.port())
            .post(
                "/sign-in",
                Map.of("name", "Ann", "pin", TestScreen.ANN, "next", "/unit/QT-0042?run=2"));
    assertThat(in.header("Location")).isEqualTo("/unit/QT-0042?run=2");
  }

  @Test
  void aBodyThatIsTooLargeIsCut() throws IOException {
    Caller ann = ann();
    Answer answer =
        ann.send("POST", "/probe/drive", "token=" + "x".repeat(Bounds.LARGEST_FORM_BYTES));
    assertThat(answer.status()).isEqualTo(413);
    assertThat(answer.body()).contains("too large");
    assertThat(DONE).hasValue(0);
  }

  @Test
  void aBodyWithoutAnEndIsCut() throws IOException {
    Caller ann = ann();
    try (Socket socket = ann.open()) {
      String head =
          ann.head("POST", "/probe/drive")
              + "Content-Type: application/x-www-form-urlencoded\r\nTransfer-Encoding: chunked\r\n\r\n";
      socket.getOutputStream().write(head.getBytes(StandardCharsets.US_ASCII));
      byte[] chunk = ("1000\r\n" + "x".repeat(4096) + "\r\n").getBytes(StandardCharsets.US_ASCII);
      Throwable cut =
          catchThrowable(
              () -> {
                for (int i = 0; i < 20_000; i++) {
                  socket.getOutputStream().write(chunk);
                }
              });
      assertThat(cut).as("80 MB were taken").isInstanceOf(IOException.class);
    }
    assertThat(DONE).hasValue(0);
  }

  @Test
  void aBodyThatDripsIsCut() throws IOException {
    Caller ann = ann();
    try (Socket socket = ann.open()) {
      String head =
          ann.head("POST", "/probe/drive")
              + "Content-Type: application/x-www-form-urlencoded\r\nContent-Length: 20000\r\n\r\n";
      socket.getOutputStream().write(head.getBytes(StandardCharsets.US_ASCII));
      socket.setSoTimeout(100);
      Optional<String> answer = Optional.empty();
      int sent = 0;
      while (answer.isEmpty() && sent < 600) {
        socket.getOutputStream().write('x');
        sent++;
        answer = answered(socket);
      }
      assertThat(sent).as("bytes, one each 0.1 s").isLessThan(600);
    }
    assertThat(DONE).hasValue(0);
  }

  private static Optional<String> answered(Socket socket) throws IOException {
    try {
      return Optional.of(Caller.firstLine(socket).orElse("closed"));
    } catch (SocketTimeoutException nothingYet) {
      return Optional.empty();
    } catch (SocketException reset) {
      return Optional.of("reset");
    }
  }

  @Test
  void headersThatAreTooLargeAreRefused() throws IOException {
    assertThat(ann().with("X-Long", "x".repeat(20_000)).get("/").status()).isEqualTo(431);
  }

  @Test
  void otherMethodsAreRefused() throws IOException {
    Caller ann = ann();
    for (String method : List.of("PUT", "DELETE", "PATCH", "OPTIONS", "TRACE", "CONNECT")) {
      assertThat(ann.send(method, "/", "").status()).as(method).isIn(400, 403, 404, 405, 501);
    }
  }

  @Test
  void aBrowserWatchesSoMuchAndNoMoreAndNotBeyondItsSession() throws IOException {
    Caller ann = ann();
    List<Socket> open = new ArrayList<>();
    try {
      for (int i = 0; i < 8; i++) {
        Socket socket = ann.open();
        open.add(socket);
        socket
            .getOutputStream()
            .write((ann.head("GET", "/probe/live") + "\r\n").getBytes(StandardCharsets.US_ASCII));
        assertThat(Caller.firstLine(socket)).hasValueSatisfying(l -> assertThat(l).contains("200"));
      }
      Answer ninth = ann.get("/probe/live");
      assertThat(ninth.status()).isEqualTo(503);
      assertThat(ninth.body()).contains("Close some of them");
      ann.post("/sign-out", Map.of());
      for (Socket socket : open) {
        assertThat(socket.getInputStream().readAllBytes()).as("until its end").isNotNull();
      }
    } finally {
      for (Socket socket : open) {
        socket.close();
      }
    }
  }

  @Test
  void scriptsInASerialNumberAreText() throws IOException {
    String serial = "<script>alert(1)</script>\"'&</svg>";
    Caller ann = ann();
    assertThat(ann.post("/station/B/take", Map.of("serial", serial, "order", serial)).status())
        .isEqualTo(303);
    String typed = URLEncoder.encode(serial, StandardCharsets.UTF_8);
    for (String path :
        List.of("/station/B", "/", "/scan?text=" + typed, "/station/A?serial=" + typed)) {
      Answer page = ann.get(path);
      assertThat(page.status()).as(path).isIn(200, 302, 303);
      assertThat(page.body()).as(path).doesNotContain("<script>alert", "</svg>\"", "\"'&<");
    }
    assertThat(ann.post("/station/B/put-back", Map.of()).status()).isEqualTo(303);
  }

  @Test
  void aFileIsCalledByHarmlessLetters() throws IOException {
    Answer answer = ann().get("/probe/file?name=a%22%0d%0aX-Bad:%20y%3Cscript%3E/..%5c.pdf");
    assertThat(answer.header("Content-Disposition"))
        .isEqualTo("attachment; filename=\"a___X-Bad__y_script__.._.pdf\"");
    assertThat(answer.header("X-Bad")).isEmpty();
  }

  @Test
  void twoBrowsersDontBothDrive() throws IOException {
    Caller ann = ann();
    Caller dan = in("Dan", TestScreen.DAN);
    Map<String, String> job = Map.of("serial", "QT-0042", "order", "4711");
    assertThat(ann.post("/station/A/take", job).status()).isEqualTo(303);
    Answer refused = dan.post("/station/A/start", Map.of());
    assertThat(refused.status()).isEqualTo(409);
    assertThat(refused.body()).contains("Ann, at another screen, holds station A");
    // The same person at another browser, too.
    Caller tablet = ann();
    assertThat(tablet.post("/station/A/start", Map.of()).status()).isEqualTo(409);
    try (Socket open = ann.open()) {
      String live = ann.head("GET", "/station/A/live") + "\r\n";
      open.getOutputStream().write(live.getBytes(StandardCharsets.US_ASCII));
      assertThat(Caller.firstLine(open).orElse("")).contains("200");
      Answer asked = dan.post("/station/A/take-over", Map.of());
      assertThat(asked.status()).isEqualTo(403);
      assertThat(asked.body()).contains("Ann holds this station", "supervisor-pin");
      assertThat(
              dan.post(
                      "/station/A/take-over",
                      Map.of("supervisor", "C. Instance", "pin", TestScreen.BEN))
                  .status())
          .isEqualTo(403);
      assertThat(tablet.post("/station/A/take-over", Map.of()).status())
          .as("from oneself")
          .isEqualTo(303);
      assertThat(
              dan.post(
                      "/station/A/take-over",
                      Map.of("supervisor", "C. Instance", "pin", TestScreen.CLEO))
                  .status())
          .isEqualTo(303);
    }
    assertThat(ann.post("/station/A/start", Map.of()).status()).isEqualTo(409);
    assertThat(ann.with("Accept", "text/plain").post("/stop", Map.of()).status())
        .as("whoever may drive may stop")
        .isEqualTo(204);
    assertThat(in("Ben", TestScreen.BEN).post("/stop", Map.of()).status()).isEqualTo(403);
    assertThat(dan.post("/station/A/put-back", Map.of()).status()).isEqualTo(303);
  }

  @Test
  void scriptsInANameAreText() throws Exception {
    String name = "<script>alert(1)</script>\"'&";
    try (TestScreen here = TestScreen.here()) {
      Caller local = new Caller(here.port());
      assertThat(local.post("/sign-in", Map.of("other", name)).status()).isEqualTo(303);
      assertThat(local.get("/").body())
          .contains("&lt;script&gt;alert(1)&lt;/script&gt;")
          .doesNotContain("<script>alert");
    }
  }
}
