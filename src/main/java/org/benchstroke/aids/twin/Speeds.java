package org.benchstroke.aids.twin;

import java.util.List;
import java.util.OptionalDouble;
import org.apache.commons.math3.stat.regression.SimpleRegression;
import org.benchstroke.core.analysis.Trace;

/** How fast the unit moves: a straight line through the middle of its longer moves. Stateless. */
final class Speeds {
  private static final double LEAST_WAY = 3.0;
  private static final int LEAST_SAMPLES = 4;
  private static final double FROM = 0.25;
  private static final double TO = 0.75;

  private Speeds() {}

  /** The mean speed one way, %/s; empty without a long move that was sampled often enough. */
  static OptionalDouble of(List<Move> clean, int sign) {
    return clean.stream()
        .filter(m -> m.sign() == sign && Math.abs(m.way()) > LEAST_WAY)
        .mapToDouble(Speeds::speed)
        .filter(v -> v > 0.0)
        .average();
  }

  /** Not above 0 where the move holds too few samples. */
  private static double speed(Move move) {
    SimpleRegression line = new SimpleRegression();
    Trace trace = move.trace();
    for (int i = 0; i < trace.size(); i++) {
      double share = (trace.percent(i) - move.before().mean()) / move.way();
      if (share > FROM && share < TO) {
        line.addData(trace.seconds(i), trace.percent(i));
      }
    }
    return line.getN() < LEAST_SAMPLES ? 0.0 : Math.abs(line.getSlope());
  }
}
