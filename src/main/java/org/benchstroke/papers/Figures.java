package org.benchstroke.papers;

import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;
import java.util.Optional;
import java.util.OptionalDouble;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.core.uncertainty.Expanded;
import org.benchstroke.judge.Judgement;
import org.benchstroke.judge.Measure;
import org.benchstroke.judge.Scope;
import org.benchstroke.judge.Word;
import org.benchstroke.unit.MeasureKind;

/**
 * Measured values as people read them: U to two significant digits, the value to the same decimals
 * (JCGM 100:2008 7.2.6). Stateless.
 */
public final class Figures {
  /** The coverage probability of all reports. */
  static final double COVERAGE = 0.95;

  /** Stands where there is nothing. */
  public static final String NONE = "–";

  /** Stands behind the U of what speaks of the readings alone ({@link Scope#READINGS}). */
  public static final String READINGS_MARK = "*";

  static final String OF_READINGS =
      "of the readings taken: how the unit scatters from one time to the next is not in U, nor in P"
          + " and the risks.";

  private static final int DECIMALS_WITHOUT_UNCERTAINTY = 2;

  /** Finer than that nobody adjusts a unit, though its readings may agree better. */
  private static final int MOST_DECIMALS = 2;

  /** What is smaller shows a single digit then. */
  private static final BigDecimal TWO_DIGITS = new BigDecimal("0.1");

  private Figures() {}

  /** U at the coverage of all reports; empty without a value. */
  public static Optional<Expanded> expanded(Measure measure) {
    return measure.budget().map(budget -> budget.expand(COVERAGE));
  }

  /** Decimals that show an uncertainty with two significant digits after rounding. */
  public static int decimals(double half) {
    if (!(half > 0.0) || Double.isInfinite(half)) {
      return DECIMALS_WITHOUT_UNCERTAINTY;
    }
    // rounded first: 0.0996 becomes 0.10, not 0.100
    int two = BigDecimal.valueOf(half).round(new MathContext(2, RoundingMode.HALF_UP)).scale();
    return Math.max(0, Math.min(two, MOST_DECIMALS));
  }

  /**
   * An uncertainty; rounded up where a single digit of it is left, so that it is not understated.
   */
  static String half(double half) {
    int decimals = decimals(half);
    BigDecimal exact = BigDecimal.valueOf(half).round(new MathContext(6, RoundingMode.HALF_UP));
    boolean oneDigit = exact.compareTo(TWO_DIGITS) < 0 && decimals == MOST_DECIMALS;
    return exact
        .setScale(decimals, oneDigit ? RoundingMode.UP : RoundingMode.HALF_UP)
        .toPlainString();
  }

  private static int decimals(Measure measure) {
    return decimals(expanded(measure).map(Expanded::half).orElse(0.0));
  }

  /** What was measured, where, and of what if the stem itself was. */
  public static String name(Measure measure) {
    return measure.title() + measure.place().behind();
  }

  /** A value without its unit; signed where the measure can have either sign. */
  static String value(Measure measure) {
    return measure.value().map(v -> number(measure.kind(), v, decimals(measure))).orElse(NONE);
  }

  /** A value with its unit; a dash if there is none. */
  public static String valueWithUnit(Measure measure) {
    return measure.value().isEmpty() ? NONE : value(measure) + " " + measure.kind().unit();
  }

  private static String number(MeasureKind kind, double value, int decimals) {
    return kind.symmetric() ? Numbers.signed(value, decimals) : Numbers.fixed(value, decimals);
  }

  /** U with its unit, to two significant digits at most; a dash without a value. */
  public static String half(Measure measure) {
    return expanded(measure).map(e -> half(e.half()) + " " + measure.kind().unit()).orElse(NONE);
  }

  /** Whether its U speaks of the readings alone. */
  public static boolean ofReadings(Judgement judgement) {
    Measure measure = judgement.measure();
    return measure.value().isPresent() && measure.scope() == Scope.READINGS;
  }

  /** k with two decimals; a dash without a value. */
  public static String coverageFactor(Measure measure) {
    return expanded(measure).map(e -> Numbers.fixed(e.k(), 2)).orElse(NONE);
  }

  static String limit(Judgement judgement) {
    return judgement.limit().map(l -> l.text()).orElse("no limit");
  }

  static String word(Optional<Word> word) {
    return word.map(Word::text).orElse("not judged");
  }

  /** A probability in per cent; never "100 %", for none is certain. */
  static String probability(OptionalDouble probability) {
    if (probability.isEmpty()) {
      return NONE;
    }
    double p = probability.getAsDouble();
    if (p > 0.999) {
      return "> 99.9 %";
    }
    return p < 0.001 ? "< 0.1 %" : Numbers.fixed(p * 100.0, 1) + " %";
  }

  /** An accuracy ratio; cut off, so that 3.99 is not shown as the 4 that it has not reached. */
  static String ratio(double ratio) {
    return ratio >= 100.0 ? "> 100" : Numbers.fixed(Math.floor(ratio * 10.0) / 10.0, 1);
  }

  static String freedom(double degrees) {
    if (Double.isInfinite(degrees)) {
      return "∞";
    }
    return degrees > 1000.0 ? "> 1000" : Numbers.fixed(Math.floor(degrees), 0);
  }
}
