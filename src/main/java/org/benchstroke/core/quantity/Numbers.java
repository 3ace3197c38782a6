package org.benchstroke.core.quantity;

import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;
import java.util.regex.Pattern;

/** Numbers as text, the same on every machine and in every locale. Stateless. */
public final class Numbers {
  /** Below it every whole number is a double of its own. */
  private static final double EXACT_WHOLE = 0x1p53;

  /** Two numbers of two digits differ if one is so much of the other. */
  private static final double SHORTER = 0.9;

  /** Every decimal of so many digits has a double of its own; 3 · 0.1 is 0.3 in them. */
  private static final MathContext KEPT = new MathContext(15, RoundingMode.HALF_EVEN);

  /** Behind nothing that it could join: no hyphen of a name or a date. */
  private static final Pattern HYPHEN_BEFORE_NUMBER =
      Pattern.compile("(?<![\\p{L}\\p{N}._)-])-(?=[0-9])");

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

  /**
   * A value with what it is within, "1.05 ± 0.47 %". Of a half-width that so many decimals do not
   * show, the last of them is said to bound it: "0.00 %, to within 0.01 %", never "± 0.00 %".
   */
  public static String within(double value, double half, int decimals, String unit) {
    return within(fixed(value, decimals), half, decimals, unit);
  }

  /** As {@link #within}, the value with its sign. */
  public static String signedWithin(double value, double half, int decimals, String unit) {
    return within(signed(value, decimals), half, decimals, unit);
  }

  private static String within(String value, double half, int decimals, String unit) {
    String shown = fixed(half, decimals);
    boolean nothing = Double.isFinite(half) && Double.parseDouble(shown) == 0.0;
    return nothing
        ? value + " " + unit + ", to within " + plain(Math.pow(10.0, -decimals)) + " " + unit
        : value + " ± " + shown + " " + unit;
  }

  /**
   * The longest of two significant digits that is no longer than asked and shorter than what there
   * is: who is told to read more often than every 0.10 s is not told 0.10 s.
   *
   * @param asked above 0
   * @param present what there is, above 0
   */
  public static String shorter(double asked, double present) {
    BigDecimal least = BigDecimal.valueOf(Math.min(asked, SHORTER * present));
    return least.round(new MathContext(2, RoundingMode.DOWN)).toPlainString();
  }

  /**
   * The shortest plain form: 4, 4.5, 0.02; what the arithmetic of a last bit adds is none of it.
   */
  public static String plain(double value) {
    if (!Double.isFinite(value)) {
      return "–";
    }
    if (value == Math.rint(value) && Math.abs(value) < EXACT_WHOLE) {
      return Long.toString((long) value);
    }
    return BigDecimal.valueOf(value).round(KEPT).stripTrailingZeros().toPlainString();
  }

  /**
   * The shortest plain form from which the same number is read again: for files, not for people.
   */
  public static String exact(double value) {
    return Double.isFinite(value)
        ? BigDecimal.valueOf(value).stripTrailingZeros().toPlainString()
        : "–";
  }

  /**
   * As {@link #plain}, with so many decimals at most: what others set need not be a round number.
   */
  public static String upTo(double value, int decimals) {
    return Double.isFinite(value)
        ? plain(Double.parseDouble(fixed(value, decimals)))
        : fixed(value, 0);
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

  /** Words with minus signs before negative numbers, where a program writes hyphens. */
  public static String minusSigns(String words) {
    return HYPHEN_BEFORE_NUMBER.matcher(words).replaceAll("−");
  }
}
