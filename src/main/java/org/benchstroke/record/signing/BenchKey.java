package org.benchstroke.record.signing;

import java.security.GeneralSecurityException;
import java.security.PrivateKey;
import java.security.Signature;

/** A bench's key pair. It never shows its private half. Any thread. */
public final class BenchKey {
  static final String ALGORITHM = "Ed25519";

  private final PrivateKey secret;
  private final PublicHalf shared;

  BenchKey(PrivateKey secret, PublicHalf shared) {
    this.secret = secret;
    this.shared = shared;
  }

  public PublicHalf shared() {
    return shared;
  }

  /** The signature, 64 bytes: the same message always gets the same. */
  byte[] sign(byte[] message) {
    try {
      Signature signature = Signature.getInstance(ALGORITHM);
      signature.initSign(secret);
      signature.update(message);
      return signature.sign();
    } catch (GeneralSecurityException e) {
      throw new IllegalStateException("a key that was just read can sign", e);
    }
  }
}
