package org.benchstroke.quantity;

import java.math.BigDecimal;
import java.math.RoundingMode;

/** Numbers as text, the same on every machine and in every locale. Stateless. */
public final class Numbers {
  /** Below it every whole number is a double of its own. */
  private static final double EXACT_WHOLE = 0x1p53;

  private Numbers() {}

  /** A fixed number of decimals, half up, a plain minus, never "-0.00". */
  public static String fixed(double value, int decimals) {
    if (!Double.isFinite(value)) {
      return "–";
    }
    BigDecimal rounded = BigDecimal.valueOf(value).setScale(decimals, RoundingMode.HALF_UP);
    return rounded.signum() == 0
        ? BigDecimal.ZERO.setScale(decimals).toPlainString()
        : rounded.toPlainString();
  }

  /** As {@link #fixed}, always with its sign: a signed error reads as one. */
  public static String signed(double value, int decimals) {
    String text = fixed(value, decimals);
    boolean bare = text.startsWith("-") || text.equals("–") || Double.parseDouble(text) == 0.0;
    return bare ? text : "+" + text;
  }

  /** The shortest plain form: 4, 4.5, 0.02. */
  public static String plain(double value) {
    if (!Double.isFinite(value)) {
      return "–";
    }
    if (value == Math.rint(value) && Math.abs(value) < EXACT_WHOLE) {
      return Long.toString((long) value);
    }
    return BigDecimal.valueOf(value).stripTrailingZeros().toPlainString();
  }

  /** Significant digits, as an uncertainty is printed (two are usual, JCGM 100:2008 7.2.6). */
  public static String significant(double value, int digits) {
    if (!Double.isFinite(value)) {
      return "–";
    }
    if (value == 0.0) {
      return "0";
    }
    BigDecimal exact = BigDecimal.valueOf(value);
    int decimals = digits - exact.precision() + exact.scale();
    return fixed(value, Math.max(0, decimals));
  }
}
