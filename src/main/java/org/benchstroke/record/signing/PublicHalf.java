package org.benchstroke.record.signing;

import java.security.GeneralSecurityException;
import java.security.InvalidKeyException;
import java.security.KeyFactory;
import java.security.MessageDigest;
import java.security.PublicKey;
import java.security.Signature;
import java.security.SignatureException;
import java.security.spec.InvalidKeySpecException;
import java.security.spec.X509EncodedKeySpec;
import java.util.Base64;
import java.util.HexFormat;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * The public half of a bench's key: whoever has it can tell what the other half has signed.
 * Immutable.
 *
 * @param base64 the key as SubjectPublicKeyInfo (RFC 8410), in Base64 without line ends
 */
public record PublicHalf(String base64) {
  /** SubjectPublicKeyInfo of Ed25519 up to the 32 bytes of the key (RFC 8410 section 4). */
  private static final byte[] HEAD = HexFormat.of().parseHex("302a300506032b6570032100");

  private static final int BYTES = HEAD.length + 32;
  private static final Pattern PEM =
      Pattern.compile(
          "-----BEGIN PUBLIC KEY-----\\s+([A-Za-z0-9+/=\\s]+?)\\s+-----END PUBLIC KEY-----");

  /** Likewise, in its one spelling. */
  public PublicHalf {
    if (!Base64.getEncoder().encodeToString(decoded(base64)).equals(base64)) {
      throw new IllegalArgumentException("a public key is spelled in one way");
    }
  }

  private static byte[] decoded(String base64) {
    byte[] bytes = Base64.getDecoder().decode(base64);
    boolean fits = bytes.length == BYTES;
    for (int i = 0; fits && i < HEAD.length; i++) {
      fits = bytes[i] == HEAD[i];
    }
    if (!fits) {
      throw new IllegalArgumentException("it is not a public key of Ed25519");
    }
    return bytes;
  }

  static PublicHalf of(PublicKey key) {
    return new PublicHalf(Base64.getEncoder().encodeToString(key.getEncoded()));
  }

  /** The key of a PEM file's text; empty if it holds none of Ed25519. */
  public static Optional<PublicHalf> ofPem(String text) {
    Matcher found = PEM.matcher(text);
    try {
      return found.find()
          ? Optional.of(new PublicHalf(found.group(1).replaceAll("\\s", "")))
          : Optional.empty();
    } catch (IllegalArgumentException e) {
      return Optional.empty();
    }
  }

  /** A PEM file's text (RFC 7468). */
  public String pem() {
    return "-----BEGIN PUBLIC KEY-----\n" + base64 + "\n-----END PUBLIC KEY-----\n";
  }

  /** SHA-256 of the key in DER, 64 hexadecimal digits: by it people compare keys. */
  public String fingerprint() {
    try {
      return HexFormat.of().formatHex(MessageDigest.getInstance("SHA-256").digest(decoded(base64)));
    } catch (GeneralSecurityException e) {
      throw new IllegalStateException("every Java has SHA-256", e);
    }
  }

  /** Whether the other half has signed this message. */
  boolean hasSigned(byte[] message, byte[] signature) {
    try {
      Signature check = Signature.getInstance(BenchKey.ALGORITHM);
      check.initVerify(
          KeyFactory.getInstance(BenchKey.ALGORITHM)
              .generatePublic(new X509EncodedKeySpec(decoded(base64))));
      check.update(message);
      return check.verify(signature);
    } catch (SignatureException | InvalidKeyException | InvalidKeySpecException e) {
      return false; // not even formed like one, or the key is no point of the curve
    } catch (GeneralSecurityException e) {
      throw new IllegalStateException("every Java from 15 on has Ed25519", e);
    }
  }
}
