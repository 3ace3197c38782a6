package org.benchstroke.core.analysis;

import java.util.Arrays;
import org.apache.commons.math3.distribution.ChiSquaredDistribution;

/**
 * How evenly something moves at full speed: how far each reading is from the line between its
 * neighbours in time, by place. Steady motion, slow or fast, gives nothing. In % of travel.
 *
 * <p>The reading's distance from the line between its neighbours has 1.5 times the variance of
 * independent readings. Stretches are 5 % of travel long; the first and the last, where it starts
 * and stops, do not count.
 *
 * @param usual the median over the stretches of the standard deviation of a reading
 * @param worst the largest
 * @param worstAt where that is, the middle of its stretch, %
 * @param worstOf of how many readings that is
 * @param stamps what the instants of the readings there are uncertain by, times the speed
 */
public record Strides(double usual, double worst, double worstAt, int worstOf, double stamps) {
  private static final int PLACES = 20;
  private static final int LEAST = 5;
  private static final int RUN_UP = 10;

  /** Over so many samples before and after an instant its speed is taken: noise is none. */
  private static final int AROUND = 2;

  private static final int AHEAD = AROUND + 1;

  /**
   * Looks at a trace while it moves.
   *
   * @param moved what is looked at
   * @param clock what tells by its motion that the motor runs at full speed
   * @param percentPerSecond the nominal speed
   */
  public static Strides of(Trace moved, Trace clock, double percentPerSecond) {
    double[] squares = new double[PLACES];
    double[] stampSquares = new double[PLACES];
    int[] count = new int[PLACES];
    int steady = 0;
    for (int i = 1; i + 2 * AHEAD - 1 < clock.size(); i++) {
      steady = atSpeed(clock, i + AHEAD, percentPerSecond) ? steady + 1 : 0;
      int k = moved == clock ? i : moved.indexAt(clock.seconds(i) - 0.02);
      // Samples ahead it still ran: the coast of a stop is no jerk.
      if (steady > RUN_UP && k > 0 && k + 1 < moved.size()) {
        double off = offTheLine(moved, k);
        int place = (int) Math.floor(clock.percent(i) / 100.0 * PLACES);
        if (place >= 1 && place < PLACES - 1) {
          squares[place] += off * off / 1.5;
          stampSquares[place] += square(percentPerSecond * longestStamp(moved, k));
          count[place]++;
        }
      }
    }
    return of(squares, stampSquares, count);
  }

  /** A late answer makes its own reading uneven and, through the line, its neighbours. */
  private static double longestStamp(Trace trace, int k) {
    double sides = Math.max(trace.stampHalfSeconds(k - 1), trace.stampHalfSeconds(k + 1));
    return Math.max(trace.stampHalfSeconds(k), sides);
  }

  private static double square(double value) {
    return value * value;
  }

  /** Of independent readings its square has 1.5 times their variance. */
  private static double offTheLine(Trace trace, int k) {
    double before = trace.seconds(k) - trace.seconds(k - 1);
    double after = trace.seconds(k + 1) - trace.seconds(k);
    double line = (trace.percent(k - 1) * after + trace.percent(k + 1) * before) / (before + after);
    return trace.percent(k) - line;
  }

  private static Strides of(double[] squares, double[] stampSquares, int[] count) {
    double[] all = new double[PLACES];
    int n = 0;
    double worst = 0.0;
    double at = 0.0;
    int of = 0;
    double stamps = 0.0;
    for (int i = 0; i < PLACES; i++) {
      if (count[i] >= LEAST) {
        double deviation = Math.sqrt(squares[i] / count[i]);
        all[n++] = deviation;
        if (deviation > worst) {
          worst = deviation;
          at = (i + 0.5) * 100.0 / PLACES;
          of = count[i];
          stamps = Math.sqrt(stampSquares[i] / count[i]);
        }
      }
    }
    double[] sorted = Arrays.copyOf(all, n);
    Arrays.sort(sorted);
    return new Strides(n == 0 ? 0.0 : sorted[n / 2], worst, at, of, stamps);
  }

  /**
   * The degrees of freedom of the largest. Neighbouring distances share readings: their
   * correlations are −2/3 and 1/6, so that n of them tell as much as n ÷ (1 + 2·(4/9 + 1/36)).
   */
  public double degreesOfFreedom() {
    return Math.max(1.0, worstOf / (1.0 + 2.0 * (4.0 / 9.0 + 1.0 / 36.0)));
  }

  /**
   * By how much the largest may differ from what is largest in truth, % of travel, with the given
   * probability or a higher one: the bound of χ² for one stretch, shared by all of them, for nobody
   * knows which is the noisiest (Bonferroni).
   */
  public double halfWidth(double probability) {
    double freedom = degreesOfFreedom();
    ChiSquaredDistribution chi = new ChiSquaredDistribution(freedom);
    double tail = (1.0 - probability) / 2.0;
    double least = chi.inverseCumulativeProbability(tail);
    double most = chi.inverseCumulativeProbability(1.0 - tail / (PLACES - 2));
    double above = Math.sqrt(freedom / least) - 1.0;
    double below = 1.0 - Math.sqrt(freedom / most);
    return worst * Math.max(above, below);
  }

  /** Whether anything moved long enough. */
  public boolean possible() {
    return worst > 0.0;
  }

  private static boolean atSpeed(Trace trace, int i, double percentPerSecond) {
    int before = Math.max(0, i - AROUND);
    int after = Math.min(trace.size() - 1, i + AROUND);
    double time = trace.seconds(after) - trace.seconds(before);
    double way = Math.abs(trace.percent(after) - trace.percent(before));
    return time > 0.0 && time < 2.0 && way / time > 0.4 * percentPerSecond;
  }
}
