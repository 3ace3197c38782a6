package org.benchstroke.papers.plot;

import java.util.ArrayList;
import java.util.DoubleSummaryStatistics;
import java.util.List;
import java.util.stream.DoubleStream;
import org.benchstroke.core.quantity.Numbers;

/**
 * An axis with round ticks: their step is 1, 2 or 5 times a power of ten. Immutable.
 *
 * @param label what it shows, with the unit: "setpoint, % of travel"
 * @param low its lower end
 * @param high its upper end, above {@code low}
 * @param step the distance of its ticks
 */
public record Axis(String label, double low, double high, double step) {
  public Axis {
    if (!(low < high) || !(step > 0.0)) {
      throw new IllegalArgumentException("an axis runs from low to high in steps above 0");
    }
  }

  /** An axis that covers the values, at least one of them, widened to whole ticks. */
  public static Axis covering(String label, DoubleStream values, int wantedTicks) {
    DoubleSummaryStatistics all = values.summaryStatistics();
    double low = all.getMin();
    double high = all.getMax();
    double margin = high > low ? 0.0 : Math.max(Math.abs(high) * 0.05, 0.05);
    double step = niceStep((high - low + 2.0 * margin) / Math.max(1, wantedTicks));
    double first = Math.floor((low - margin) / step + 1e-9) * step;
    double last = Math.ceil((high + margin) / step - 1e-9) * step;
    return new Axis(label, first, last, step);
  }

  /** An axis with exactly these ends; its ticks stand on round values between them. */
  public static Axis exactly(String label, double low, double high, int wantedTicks) {
    return new Axis(label, low, high, niceStep((high - low) / Math.max(1, wantedTicks)));
  }

  /** An axis a little wider than the values, at least one of them. */
  public static Axis around(String label, DoubleStream values, int wantedTicks) {
    DoubleSummaryStatistics all = values.summaryStatistics();
    double margin = Math.max(0.06 * (all.getMax() - all.getMin()), 0.005);
    return exactly(label, all.getMin() - margin, all.getMax() + margin, wantedTicks);
  }

  /** An axis for 0..100 % of travel, wider where the values are, with a small margin outside. */
  public static Axis travel(String label, DoubleStream values, int wantedTicks) {
    DoubleSummaryStatistics all = values.summaryStatistics();
    double low = Math.min(0.0, all.getMin());
    return exactly(label, low - 2.0, Math.max(100.0, all.getMax()) + 2.0, wantedTicks);
  }

  /** The smallest of 1, 2, 5 × 10ⁿ that isn't below the value. */
  static double niceStep(double atLeast) {
    double power = Math.pow(10.0, Math.floor(Math.log10(atLeast)));
    for (double factor : new double[] {1.0, 2.0, 5.0}) {
      if (factor * power >= atLeast * (1.0 - 1e-9)) {
        return factor * power;
      }
    }
    return 10.0 * power;
  }

  /** The ticks from low to high. */
  public List<Double> ticks() {
    List<Double> ticks = new ArrayList<>();
    long last = (long) Math.floor(high / step + 1e-6);
    // whole multiples, not a running sum: a sum would drift away from the round values
    for (long i = (long) Math.ceil(low / step - 1e-6); i <= last; i++) {
      ticks.add(i * step);
    }
    return ticks;
  }

  /** A tick as text, with the decimals that its step needs and a minus sign of print. */
  public String tickText(double tick) {
    int decimals = (int) Math.max(0, -Math.floor(Math.log10(step) + 1e-9));
    return Numbers.fixed(tick, decimals).replace('-', '−');
  }

  /** Where a value stands between low (0) and high (1). */
  public double share(double value) {
    return (value - low) / (high - low);
  }
}
