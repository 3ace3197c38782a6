package org.benchstroke.web;

import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.GeneralSecurityException;
import java.security.KeyStore;
import java.util.Collections;
import org.benchstroke.app.WrongRequest;
import org.eclipse.jetty.server.HttpConfiguration;
import org.eclipse.jetty.server.HttpConnectionFactory;
import org.eclipse.jetty.server.SecureRequestCustomizer;
import org.eclipse.jetty.server.Server;
import org.eclipse.jetty.server.ServerConnector;
import org.eclipse.jetty.server.SslConnectionFactory;
import org.eclipse.jetty.util.ssl.SslContextFactory;

/** The key and the certificate by which browsers reach the screen over TLS. Any thread. */
public final class Certificate {
  private final KeyStore store;
  private final String passphrase;

  private Certificate(KeyStore store, String passphrase) {
    this.store = store;
    this.passphrase = passphrase;
  }

  /**
   * Reads it.
   *
   * @param file PKCS#12
   * @throws WrongRequest if it can't be read with that passphrase, or holds no key
   */
  public static Certificate read(Path file, String passphrase) throws WrongRequest {
    try (InputStream in = Files.newInputStream(file)) {
      KeyStore store = KeyStore.getInstance("PKCS12");
      store.load(in, passphrase.toCharArray());
      for (String alias : Collections.list(store.aliases())) {
        if (store.isKeyEntry(alias)) {
          return new Certificate(store, passphrase);
        }
      }
      throw new WrongRequest(file + ": holds no private key beside its certificate");
    } catch (IOException | GeneralSecurityException e) {
      throw new WrongRequest(
          file
              + ": can't be read as PKCS#12 with this passphrase: "
              + e.getMessage()
              + "; make it with openssl pkcs12 -export");
    }
  }

  /** What listens with it. */
  ServerConnector connector(Server server, HttpConfiguration plain) {
    SslContextFactory.Server context = new SslContextFactory.Server();
    context.setKeyStore(store);
    context.setKeyStorePassword(passphrase);
    HttpConfiguration secure = new HttpConfiguration(plain);
    // The names are checked for every request, whether TLS or not.
    secure.addCustomizer(new SecureRequestCustomizer(false));
    return new ServerConnector(
        server, new SslConnectionFactory(context, "http/1.1"), new HttpConnectionFactory(secure));
  }

  /** Without its passphrase. */
  @Override
  public String toString() {
    return "certificate";
  }
}
