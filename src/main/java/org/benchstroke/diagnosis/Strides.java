package org.benchstroke.diagnosis;

import java.util.Arrays;
import org.benchstroke.analysis.Trace;

/**
 * How evenly something moves at full speed: how far each reading is from the line between its
 * neighbours in time, by place. Steady motion, slow or fast, gives nothing. In % of travel.
 *
 * @param usual the median over the travel of their standard deviation
 * @param worst the largest
 * @param worstAt where that is, %
 * @param stamps what the instants of the readings are uncertain by at that speed, the mean of it
 */
record Strides(double usual, double worst, double worstAt, double stamps) {
  private static final int PLACES = 20;
  private static final int LEAST = 4;
  private static final int RUN_UP = 9;

  /**
   * @param moved what is looked at
   * @param clock what tells by its motion that the motor runs at full speed
   * @param percentPerSecond the nominal speed
   */
  static Strides of(Trace moved, Trace clock, double percentPerSecond) {
    double[] squares = new double[PLACES];
    int[] count = new int[PLACES];
    int steady = 0;
    for (int i = 1; i + 3 < clock.size(); i++) {
      steady = atSpeed(clock, i + 2, percentPerSecond) ? steady + 1 : 0;
      int k = moved == clock ? i : moved.indexAt(clock.seconds(i) - 0.02);
      // Two samples ahead it still ran: the coast of a stop is no jerk.
      if (steady > RUN_UP && k > 0 && k + 1 < moved.size()) {
        double off = offTheLine(moved, k);
        int place = (int) Math.floor(clock.percent(i) / 100.0 * PLACES);
        if (place >= 1 && place < PLACES - 1) {
          squares[place] += off * off / 1.5;
          count[place]++;
        }
      }
    }
    return of(squares, count, percentPerSecond * halfSeconds(moved));
  }

  /** Of independent readings its square has 1.5 times their variance. */
  private static double offTheLine(Trace trace, int k) {
    double before = trace.seconds(k) - trace.seconds(k - 1);
    double after = trace.seconds(k + 1) - trace.seconds(k);
    double line = (trace.percent(k - 1) * after + trace.percent(k + 1) * before) / (before + after);
    return trace.percent(k) - line;
  }

  private static double halfSeconds(Trace trace) {
    double sum = 0.0;
    for (int i = 0; i < trace.size(); i++) {
      sum += trace.stampHalfSeconds(i);
    }
    return trace.isEmpty() ? 0.0 : sum / trace.size();
  }

  private static Strides of(double[] squares, int[] count, double stamps) {
    double[] all = new double[PLACES];
    int n = 0;
    double worst = 0.0;
    double at = 0.0;
    for (int i = 0; i < PLACES; i++) {
      if (count[i] >= LEAST) {
        double deviation = Math.sqrt(squares[i] / count[i]);
        all[n++] = deviation;
        if (deviation > worst) {
          worst = deviation;
          at = (i + 0.5) * 100.0 / PLACES;
        }
      }
    }
    double[] sorted = Arrays.copyOf(all, n);
    Arrays.sort(sorted);
    return new Strides(n == 0 ? 0.0 : sorted[n / 2], worst, at, stamps);
  }

  /** Whether anything moved long enough. */
  boolean possible() {
    return worst > 0.0;
  }

  private static boolean atSpeed(Trace trace, int i, double percentPerSecond) {
    double least = 0.4 * percentPerSecond;
    double before = speed(trace, i);
    double after = speed(trace, i + 1);
    return Math.abs(before + after) / 2.0 > least
        && trace.seconds(i + 1) - trace.seconds(i - 1) < 1.0;
  }

  private static double speed(Trace trace, int i) {
    double time = trace.seconds(i) - trace.seconds(i - 1);
    return time > 0.0 ? (trace.percent(i) - trace.percent(i - 1)) / time : 0.0;
  }
}
