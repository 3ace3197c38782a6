package org.benchstroke.io.instrument;

import java.nio.charset.StandardCharsets;
import java.util.HexFormat;

/** What goes over a wire, as a person can read it. Stateless. */
public final class VisibleText {
  private static final int MOST = 80;

  private VisibleText() {}

  /** Bytes with the controls and the rest escaped, cut after 80. */
  public static String of(byte[] bytes, int count) {
    StringBuilder text = new StringBuilder();
    for (int i = 0; i < Math.min(count, MOST); i++) {
      byte b = bytes[i];
      switch (b) {
        case '\n' -> text.append("\\n");
        case '\r' -> text.append("\\r");
        default -> text.append(b >= ' ' && b < 0x7F ? Character.toString(b) : escaped(b));
      }
    }
    return count > MOST ? text + "… (" + count + " bytes)" : text.toString();
  }

  /** A text likewise. */
  public static String of(String text) {
    byte[] bytes = text.getBytes(StandardCharsets.ISO_8859_1);
    return of(bytes, bytes.length);
  }

  private static String escaped(byte b) {
    return "\\x" + HexFormat.of().withUpperCase().toHexDigits(b);
  }
}
