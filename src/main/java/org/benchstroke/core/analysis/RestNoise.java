package org.benchstroke.core.analysis;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import org.apache.commons.math3.distribution.TDistribution;

/**
 * How neighbouring readings at rest go together, learnt from all windows at rest of a run: the mean
 * of n readings that follow each other is worth fewer than n independent ones (JCGM 100:2008
 * 4.2.7), and their own scatter is smaller than that of a reading. One window says little of it, so
 * that all are pooled; each may have a mean and a scatter of its own.
 *
 * <p>Each {@link NoisePattern} is weighed by the likelihood that the windows give it, with their
 * means and scatters integrated out. U of a mean is then the half-width that holds 95 % of the
 * mixture: where the windows can't tell, it is wide. What goes on for longer than a window is seen
 * only as far as it shows within one.
 *
 * <p>Safe for any thread.
 */
public final class RestNoise {
  /** Readings that are independent of one another, where there is no window to learn from. */
  public static final RestNoise INDEPENDENT = of(List.of());

  private static final int FEWEST = 5;

  /** The last readings of a longer window say enough. */
  private static final int LONGEST = 60;

  /** More windows than this are thinned out evenly. */
  private static final int MOST = 300;

  /** A window that scatters less than this share of the usual one does so by chance or by steps. */
  private static final double LEAST_SHARE = 0.5;

  private static final double COVERAGE = 0.95;
  private static final double NEGLIGIBLE = 1.0e-6;

  private final List<Weighed> patterns;
  private final double usualDeviation;
  private final Map<Integer, Factors> factors = new ConcurrentHashMap<>();

  private record Weighed(NoisePattern pattern, double weight) {}

  /**
   * Of the mean of a number of readings.
   *
   * @param ofMean its standard uncertainty as a multiple of the scatter within the window
   * @param ofOne that of one reading
   * @param degrees ν of both
   */
  private record Factors(double ofMean, double ofOne, double degrees) {}

  /**
   * A standard uncertainty from readings.
   *
   * @param standard in the unit of the readings
   * @param degrees its degrees of freedom
   */
  public record Known(double standard, double degrees) {}

  private RestNoise(List<Weighed> patterns, double usualDeviation) {
    this.patterns = patterns;
    this.usualDeviation = usualDeviation;
  }

  /**
   * Learns from windows at rest.
   *
   * @param windows the readings of each, in their order, evenly spaced; those of fewer than five or
   *     without any scatter say nothing
   */
  public static RestNoise of(List<double[]> windows) {
    List<double[]> used = new ArrayList<>();
    List<Double> deviations = new ArrayList<>();
    int each = Math.max(1, (windows.size() + MOST - 1) / MOST);
    for (int i = 0; i < windows.size(); i += each) {
      double[] window = windows.get(i);
      double[] last =
          Arrays.copyOfRange(window, Math.max(0, window.length - LONGEST), window.length);
      if (last.length >= FEWEST) {
        double deviation = Spread.of(last).deviation();
        deviations.add(deviation);
        if (deviation > 1.0e-12 && Double.isFinite(deviation)) {
          used.add(last);
        }
      }
    }
    double usual =
        deviations.isEmpty()
            ? 0.0
            : deviations.stream().sorted().toList().get((deviations.size() - 1) / 2);
    return new RestNoise(weighed(used), usual);
  }

  private static List<Weighed> weighed(List<double[]> windows) {
    List<NoisePattern> all = NoisePattern.all();
    if (windows.isEmpty()) {
      return List.of(new Weighed(all.get(0), 1.0));
    }
    double[] logs = new double[all.size()];
    for (int i = 0; i < logs.length; i++) {
      logs[i] = Math.log(all.get(i).prior()) + all.get(i).logLikelihood(windows);
    }
    double most = Arrays.stream(logs).max().orElseThrow();
    double sum = Arrays.stream(logs).map(l -> Math.exp(l - most)).sum();
    List<Weighed> weighed = new ArrayList<>();
    for (int i = 0; i < logs.length; i++) {
      double weight = Math.exp(logs[i] - most) / sum;
      if (weight > NEGLIGIBLE) {
        weighed.add(new Weighed(all.get(i), weight));
      }
    }
    return weighed;
  }

  /**
   * The mean of readings that follow each other, by their scatter. Few of them agree by chance:
   * half of what the windows of the run usually scatter counts at least.
   *
   * @param deviation the scatter that they show (n − 1)
   * @param readings how many, at least 2
   */
  public Known ofMean(double deviation, int readings) {
    Factors f = factors(readings);
    return new Known(Math.max(deviation, LEAST_SHARE * usualDeviation) * f.ofMean(), f.degrees());
  }

  /** One reading, by the scatter that a number of them show. */
  public Known ofOne(double deviation, int readings) {
    Factors f = factors(readings);
    return new Known(deviation * f.ofOne(), f.degrees());
  }

  /**
   * One reading, by what the windows of the run usually scatter.
   *
   * @param readings how many a window holds
   */
  public double usual(int readings) {
    return ofOne(usualDeviation, readings).standard();
  }

  /** The variance of the mean of so many readings as a share of that of one. */
  public double shareOfMean(int readings) {
    double share = 0.0;
    for (Weighed w : patterns) {
      share += w.weight() * w.pattern().ofMean(readings);
    }
    return share;
  }

  /** How many independent readings so many that follow each other are worth. */
  public double worth(int readings) {
    return 1.0 / shareOfMean(readings);
  }

  private Factors factors(int readings) {
    return factors.computeIfAbsent(Math.max(2, readings), this::learnt);
  }

  private Factors learnt(int n) {
    double[] scale = new double[patterns.size()];
    TDistribution[] t = new TDistribution[patterns.size()];
    double inverse = 0.0;
    double ofOne = 0.0;
    for (int i = 0; i < scale.length; i++) {
      NoisePattern pattern = patterns.get(i).pattern();
      double shown = pattern.shown(n);
      double degrees = pattern.degrees(n);
      scale[i] = Math.sqrt(pattern.ofMean(n) / shown);
      t[i] = new TDistribution(degrees);
      inverse += patterns.get(i).weight() / degrees;
      ofOne += patterns.get(i).weight() / shown;
    }
    double degrees = 1.0 / inverse;
    double half = half(scale, t);
    double factor = new TDistribution(degrees).inverseCumulativeProbability((1.0 + COVERAGE) / 2.0);
    return new Factors(half / factor, Math.sqrt(ofOne), degrees);
  }

  /** The half-width that holds 95 % of the mixture, as a multiple of the scatter. */
  private double half(double[] scale, TDistribution[] t) {
    double low = 0.0;
    double high = 1.0;
    while (within(high, scale, t) < COVERAGE) {
      high *= 2.0;
    }
    for (int i = 0; i < 50; i++) {
      double middle = (low + high) / 2.0;
      boolean tooShort = within(middle, scale, t) < COVERAGE;
      low = tooShort ? middle : low;
      high = tooShort ? high : middle;
    }
    return high;
  }

  private double within(double half, double[] scale, TDistribution[] t) {
    double p = 0.0;
    for (int i = 0; i < scale.length; i++) {
      p += patterns.get(i).weight() * (2.0 * t[i].cumulativeProbability(half / scale[i]) - 1.0);
    }
    return p;
  }
}
