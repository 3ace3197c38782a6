package org.benchstroke.web.access;

import java.nio.charset.StandardCharsets;
import java.security.GeneralSecurityException;
import java.security.MessageDigest;
import java.security.SecureRandom;
import java.util.Base64;
import java.util.regex.Pattern;
import javax.crypto.Mac;
import javax.crypto.spec.SecretKeySpec;

/**
 * Ids of browsers, 256 bits that nobody can guess, and the token that belongs to each: a page holds
 * the token of its browser, and only a page of ours can know it. Any thread.
 */
final class Ids {
  private static final int BYTES = 32;
  private static final String MAC = "HmacSHA256";
  private static final SecureRandom RANDOM = new SecureRandom();
  private static final Pattern ID = Pattern.compile("[A-Za-z0-9_-]{43}");

  private final SecretKeySpec key = new SecretKeySpec(random(), MAC);

  /** A new id. */
  static String fresh() {
    return text(random());
  }

  /** Whether a cookie holds what may be an id. */
  static boolean mayBe(String cookie) {
    return ID.matcher(cookie).matches();
  }

  /** What a form of this browser must bring along. */
  String token(String id) {
    return made("token", id);
  }

  /** What tells a browser from others and opens nothing. */
  String label(String id) {
    return made("label", id).substring(0, 12);
  }

  private String made(String what, String id) {
    try {
      Mac mac = Mac.getInstance(MAC);
      mac.init(key);
      return text(mac.doFinal((what + " " + id).getBytes(StandardCharsets.US_ASCII)));
    } catch (GeneralSecurityException e) {
      throw new IllegalStateException("every Java has " + MAC, e);
    }
  }

  /** Whether a form has brought it along; how long that takes tells nothing of it. */
  boolean isToken(String id, String brought) {
    return MessageDigest.isEqual(
        token(id).getBytes(StandardCharsets.US_ASCII), brought.getBytes(StandardCharsets.UTF_8));
  }

  private static byte[] random() {
    byte[] bytes = new byte[BYTES];
    RANDOM.nextBytes(bytes);
    return bytes;
  }

  private static String text(byte[] bytes) {
    return Base64.getUrlEncoder().withoutPadding().encodeToString(bytes);
  }
}
