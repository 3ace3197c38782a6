package org.benchstroke.record.signing;

import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.channels.FileChannel;
import java.nio.file.AccessDeniedException;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.NotDirectoryException;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.security.GeneralSecurityException;
import java.security.KeyPair;
import java.security.KeyPairGenerator;
import java.security.KeyStore;
import java.security.PrivateKey;
import java.security.UnrecoverableKeyException;
import java.security.cert.Certificate;
import org.benchstroke.core.files.OwnerOnly;
import org.benchstroke.core.files.WholeFile;

/**
 * The folder of a bench's key pair: the private half in a PKCS#12 key store that only its owner may
 * read, the public half beside it in a PEM file for everyone. It is made on first use, once, even
 * if several programs begin at the same time. Any thread.
 */
public final class BenchKeys {
  private static final String ALIAS = "bench";
  private static final String ANEW = "; move it away, and the next run begins a new key";
  private static final Object IN_THIS_PROGRAM = new Object();

  private final Path folder;

  /** In this folder, which need not be there yet. */
  public BenchKeys(Path folder) {
    this.folder = folder;
  }

  /** The key store with the private half. */
  public Path store() {
    return folder.resolve("bench-key.p12");
  }

  /** The public half, a PEM file. */
  public Path publicFile() {
    return folder.resolve("bench-key.pem");
  }

  /**
   * Opens the key, or makes one where none is.
   *
   * @param passphrase of the key store; empty for none
   * @throws NoKey if it can't be read, made or opened, or others may read it
   */
  public BenchKey open(String passphrase) throws NoKey {
    return locked(
        () -> {
          if (!Files.exists(store())) {
            make(passphrase);
          }
          Held held = read(passphrase);
          if (!Files.exists(publicFile())) {
            WholeFile.write(publicFile(), out -> out.write(held.key().shared().pem()));
          }
          return held.key();
        });
  }

  /**
   * Gives the key store another passphrase.
   *
   * @throws NoKey as {@link #open}
   */
  public void change(String passphrase, String next) throws NoKey {
    locked(
        () -> {
          Held held = read(passphrase);
          write(held.secret(), held.certificate(), next);
          return held;
        });
  }

  private record Held(PrivateKey secret, Certificate certificate) {
    BenchKey key() {
      return new BenchKey(secret, PublicHalf.of(certificate.getPublicKey()));
    }
  }

  private interface Work<T> {
    T done() throws IOException, GeneralSecurityException, NoKey;
  }

  /** One program at a time, and one thread of it. */
  private <T> T locked(Work<T> work) throws NoKey {
    synchronized (IN_THIS_PROGRAM) {
      try {
        Files.createDirectories(folder);
        try (FileChannel channel =
            FileChannel.open(
                folder.resolve("bench-key.lock"),
                StandardOpenOption.CREATE,
                StandardOpenOption.WRITE)) {
          // Closing the file gives the lock back.
          channel.lock();
          return work.done();
        }
      } catch (IOException e) {
        throw new NoKey("the bench's key in " + folder + " can't be used: " + why(e), false);
      } catch (GeneralSecurityException e) {
        throw new NoKey(store() + ": holds no key of a bench: " + e.getMessage(), false);
      }
    }
  }

  private static String why(IOException e) {
    if (e instanceof AccessDeniedException denied) {
      return "there is no permission for " + denied.getFile();
    }
    if (e instanceof FileAlreadyExistsException || e instanceof NotDirectoryException) {
      return "a file is in its way";
    }
    return e.getMessage();
  }

  private void make(String passphrase) throws IOException, GeneralSecurityException {
    KeyPair pair = KeyPairGenerator.getInstance(BenchKey.ALGORITHM).generateKeyPair();
    write(pair.getPrivate(), SelfSigned.of(pair), passphrase);
  }

  private void write(PrivateKey secret, Certificate certificate, String passphrase)
      throws IOException, GeneralSecurityException {
    KeyStore store = KeyStore.getInstance("PKCS12");
    store.load(null, null);
    store.setKeyEntry(ALIAS, secret, passphrase.toCharArray(), new Certificate[] {certificate});
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    store.store(bytes, passphrase.toCharArray());
    WholeFile.writeForOwner(store(), bytes.toByteArray());
  }

  private Held read(String passphrase) throws IOException, GeneralSecurityException, NoKey {
    if (!OwnerOnly.is(store())) {
      throw new NoKey(
          store()
              + ": others than its owner may read or write it; whoever has a copy can seal as this"
              + " bench. Take their permissions away (chmod 600), or move it"
              + " away, and the next run begins a new key",
          false);
    }
    KeyStore store = KeyStore.getInstance("PKCS12");
    byte[] bytes = Files.readAllBytes(store());
    try {
      store.load(new ByteArrayInputStream(bytes), passphrase.toCharArray());
    } catch (IOException e) {
      if (e.getCause() instanceof UnrecoverableKeyException) {
        throw new NoKey(
            store()
                + (passphrase.isEmpty() ? ": needs its passphrase" : ": has another passphrase"),
            true);
      }
      throw new NoKey(store() + ": can't be read as a key store" + ANEW, false);
    }
    if (store.getKey(ALIAS, passphrase.toCharArray()) instanceof PrivateKey secret
        && store.getCertificate(ALIAS) != null) {
      return new Held(secret, store.getCertificate(ALIAS));
    }
    throw new NoKey(store() + ": holds no key of a bench" + ANEW, false);
  }
}
