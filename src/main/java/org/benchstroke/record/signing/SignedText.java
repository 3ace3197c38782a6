package org.benchstroke.record.signing;

import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.Base64;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * A file of two lines: a statement, and the signature of that line with its line end. The statement
 * is a JSON object that holds the public key by which it is signed.
 *
 * @param object what is stated, without the key
 * @param key by which it is signed
 */
public record SignedText(String object, PublicHalf key) {
  private static final String KEY = "\"public_key\":\"";
  private static final Pattern SECOND = Pattern.compile("\\{\"signature\":\"([A-Za-z0-9+/=]+)\"}");

  /** The end of a statement that names its key. */
  private static final Pattern NAMED = Pattern.compile(",\"public_key\":\"([A-Za-z0-9+/=]+)\"}$");

  /**
   * The whole file: what is stated, with the public key as the last of its keys, and its signature.
   *
   * @param object a JSON object in one line, with at least one key
   */
  public static String of(String object, BenchKey key) {
    if (!object.endsWith("}") || object.indexOf('\n') >= 0 || object.contains(KEY)) {
      throw new IllegalArgumentException("a statement is an object in one line, without a key yet");
    }
    String open = object.substring(0, object.length() - 1);
    String line = open + "," + KEY + key.shared().base64() + "\"}\n";
    return line + second(key.sign(utf8(line)));
  }

  private static String second(byte[] signature) {
    return "{\"signature\":\"" + Base64.getEncoder().encodeToString(signature) + "\"}\n";
  }

  /**
   * Reads such a file.
   *
   * @return empty if it is not one, or not signed by the key that it names: nothing of it counts
   */
  public static Optional<SignedText> read(byte[] bytes) {
    String text = new String(bytes, StandardCharsets.UTF_8);
    int end = text.indexOf('\n') + 1;
    Matcher named = NAMED.matcher(text.substring(0, Math.max(0, end - 1)));
    Matcher second = SECOND.matcher(text.substring(end).stripTrailing());
    if (!named.find() || !second.matches()) {
      return Optional.empty();
    }
    try {
      PublicHalf key = new PublicHalf(named.group(1));
      byte[] signature = Base64.getDecoder().decode(second.group(1));
      String line = text.substring(0, end);
      // Compared as bytes: nothing may stand in it that is read as the same text.
      byte[] whole = utf8(line + second(signature));
      return Arrays.equals(whole, bytes) && key.hasSigned(utf8(line), signature)
          ? Optional.of(new SignedText(line.substring(0, named.start()) + "}", key))
          : Optional.empty();
    } catch (IllegalArgumentException e) {
      return Optional.empty();
    }
  }

  private static byte[] utf8(String text) {
    return text.getBytes(StandardCharsets.UTF_8);
  }
}
