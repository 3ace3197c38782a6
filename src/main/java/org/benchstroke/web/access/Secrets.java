package org.benchstroke.web.access;

import com.password4j.Argon2Function;
import com.password4j.Password;
import com.password4j.types.Argon2;
import java.nio.charset.StandardCharsets;
import java.text.Normalizer;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * PINs and passwords, hashed so that whoever copies the file has to try them one by one, slowly.
 * Argon2id (RFC 9106) with 19 MiB, two passes, one lane: the first choice of OWASP's Password
 * Storage Cheat Sheet, and the least that is accepted. Stateless.
 */
public final class Secrets {
  /** KiB, and passes: how a secret is hashed, and the least that is accepted of a file. */
  private static final int MEMORY_KIB = 19_456;

  private static final int PASSES = 2;
  private static final int LANES = 1;
  private static final int HASH_BYTES = 32;
  private static final int SALT_BYTES = 16;

  /** Beyond these a single attempt would be a burden to whoever samples a unit meanwhile. */
  private static final int MOST_KIB = 262_144;

  private static final int MOST_PASSES = 10;

  private static final int SHORTEST_PIN = 6;
  private static final int SHORTEST_PASSWORD = 8;
  private static final int MOST_BYTES = 200;

  private static final Pattern HASH =
      Pattern.compile(
          "\\$argon2id\\$v=19\\$m=(\\d{1,7}),t=(\\d{1,3}),p=1"
              + "\\$[A-Za-z0-9+/]{22,86}\\$[A-Za-z0-9+/]{43,86}");

  private Secrets() {}

  /** What is kept of a secret: its hash with a salt of its own and how it was made (PHC string). */
  public static String hash(String typed) {
    return Password.hash(composed(typed))
        .addRandomSalt(SALT_BYTES)
        .with(Argon2Function.getInstance(MEMORY_KIB, PASSES, LANES, HASH_BYTES, Argon2.ID))
        .getResult();
  }

  /**
   * Whether this is the secret: a tenth to a fifth of a second of one processor.
   *
   * @param hash of which {@link #mayBe} says that it is one
   */
  public static boolean is(String hash, String typed) {
    return typed.getBytes(StandardCharsets.UTF_8).length <= MOST_BYTES
        && Password.check(composed(typed), hash).with(Argon2Function.getInstanceFromHash(hash));
  }

  /** Whether a text of a file is such a hash, neither weaker nor dearer than is sane. */
  static boolean mayBe(String text) {
    Matcher parts = HASH.matcher(text);
    return parts.matches()
        && within(parts.group(1), MEMORY_KIB, MOST_KIB)
        && within(parts.group(2), PASSES, MOST_PASSES);
  }

  private static boolean within(String digits, int least, int most) {
    int value = Integer.parseInt(digits);
    return value >= least && value <= most;
  }

  /** Why a new secret won't do, as a sentence that says what does; empty if it does. */
  public static Optional<String> fault(String typed, String name) {
    String plain = composed(typed);
    if (plain.getBytes(StandardCharsets.UTF_8).length > MOST_BYTES) {
      return Optional.of("That is too long: at most " + MOST_BYTES + " bytes.");
    }
    boolean digits = plain.matches("[0-9]*");
    if (plain.length() < (digits ? SHORTEST_PIN : SHORTEST_PASSWORD)) {
      return Optional.of(
          "That is too short: a PIN has at least "
              + SHORTEST_PIN
              + " digits, a password at least "
              + SHORTEST_PASSWORD
              + " characters.");
    }
    if (steady(plain)) {
      return Optional.of(
          "That is the first that anybody tries: choose one without a row such as 123456 or"
              + " 000000.");
    }
    if (NamedOperator.key(plain).equals(NamedOperator.key(name))) {
      return Optional.of("That is the name itself; choose another.");
    }
    return Optional.empty();
  }

  /** Whether each character follows the one before it by the same stride of −1, 0 or 1. */
  private static boolean steady(String text) {
    int stride = text.charAt(1) - text.charAt(0);
    for (int i = 2; i < text.length(); i++) {
      if (text.charAt(i) - text.charAt(i - 1) != stride) {
        return false;
      }
    }
    return Math.abs(stride) <= 1;
  }

  /** The same letters, whichever keyboard composed them. */
  private static String composed(String typed) {
    return Normalizer.normalize(typed, Normalizer.Form.NFC);
  }
}
