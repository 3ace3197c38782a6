package org.benchstroke.record;

import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;

/**
 * The check value that ties each line of a record to the one before: the first 16 hexadecimal
 * digits of SHA-256 over the previous check value and the line without its own. It shows damage and
 * careless edits; it is no signature.
 */
final class Chain {
  static final String START = "0000000000000000";
  private static final int BYTES = 8;

  private final MessageDigest digest = sha256();

  String next(String previous, String line) {
    byte[] bytes = line.getBytes(StandardCharsets.UTF_8);
    return next(previous, bytes, bytes.length);
  }

  /** Likewise, of a line as it lies in a file. */
  String next(String previous, byte[] line, int length) {
    digest.update(previous.getBytes(StandardCharsets.US_ASCII));
    digest.update(line, 0, length);
    byte[] hash = digest.digest();
    return HexFormat.of().formatHex(hash, 0, BYTES);
  }

  static MessageDigest sha256() {
    try {
      return MessageDigest.getInstance("SHA-256");
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException("every Java has SHA-256", e);
    }
  }
}
