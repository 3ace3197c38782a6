package org.benchstroke.papers.plot;

import org.benchstroke.core.quantity.Numbers;

/**
 * Writes SVG text element by element. Numbers have two fixed decimals and all text is escaped, so
 * the same picture is the same bytes on any machine. For one thread.
 */
final class Svg {
  static final String FONT = "'Liberation Sans', Arial, Helvetica, sans-serif";

  private final StringBuilder out = new StringBuilder();

  /** Opens an element; attributes are name, value, name, value … with strings or numbers. */
  Svg open(String element, Object... attributes) {
    start(element, attributes);
    out.append('>');
    return this;
  }

  Svg close(String element) {
    out.append("</").append(element).append(">\n");
    return this;
  }

  /** An element without content. */
  Svg shape(String element, Object... attributes) {
    start(element, attributes);
    out.append("/>\n");
    return this;
  }

  /** An element that holds nothing but text. */
  Svg text(String element, String content, Object... attributes) {
    open(element, attributes);
    out.append(escape(content));
    return close(element);
  }

  @Override
  public String toString() {
    return out.toString();
  }

  private void start(String element, Object... attributes) {
    out.append('<').append(element);
    for (int i = 0; i + 1 < attributes.length; i += 2) {
      out.append(' ').append(attributes[i]).append("=\"");
      out.append(attribute(attributes[i + 1])).append('"');
    }
  }

  private static String attribute(Object value) {
    return value instanceof Number number ? number(number.doubleValue()) : escape(value.toString());
  }

  /** A coordinate: two decimals at most, without the zeros at its end. */
  static String number(double value) {
    return Numbers.plain(Double.parseDouble(Numbers.fixed(value, 2)));
  }

  /** Escapes for element content and quoted attributes; leaves out what XML 1.0 does not allow. */
  static String escape(String text) {
    StringBuilder safe = new StringBuilder(text.length() + 16);
    text.codePoints()
        .forEach(
            c -> {
              switch (c) {
                case '<' -> safe.append("&lt;");
                case '>' -> safe.append("&gt;");
                case '&' -> safe.append("&amp;");
                case '"' -> safe.append("&quot;");
                case '\'' -> safe.append("&#39;");
                default -> safe.appendCodePoint(allowed(c) ? c : 0xFFFD);
              }
            });
    return safe.toString();
  }

  /** XML 1.0 (fifth edition) 2.2, production Char. */
  private static boolean allowed(int c) {
    return c == '\t'
        || c == '\n'
        || c == '\r'
        || (c >= 0x20 && c <= 0xD7FF)
        || (c >= 0xE000 && c <= 0xFFFD)
        || c >= 0x10000;
  }
}
