package org.benchstroke.judge;

import java.util.Arrays;
import java.util.HashMap;
import java.util.Map;
import java.util.SplittableRandom;

/** How the error of an instrument may run over its range, within the bound of its data sheet. */
public enum MeterShape {
  OFFSET,
  TILT,
  BOW,
  S,
  STEPS,
  INDEPENDENT;

  private static final int PIECES = 4;

  /** One instrument: its error at a place, as a share of its bound, −1 to 1. */
  @FunctionalInterface
  public interface Drawn {
    double at(double percent);
  }

  /** An instrument of this shape; how far it is off is equally likely anywhere within the bound. */
  public Drawn draw(SplittableRandom r) {
    double much = r.nextDouble(-1.0, 1.0);
    double[] pieces = r.doubles(PIECES, -1.0, 1.0).toArray();
    double[] edges = r.doubles(PIECES - 1).sorted().toArray();
    SplittableRandom own = r.split();
    Map<Long, Double> points = new HashMap<>();
    return percent -> {
      double x = Math.max(0.0, Math.min(1.0, percent / 100.0));
      return switch (this) {
        case OFFSET -> much;
        case TILT -> much * (2.0 * x - 1.0);
        case BOW -> much * (1.0 - 2.0 * (2.0 * x - 1.0) * (2.0 * x - 1.0));
        case S -> much * Math.sin(2.0 * Math.PI * x);
        case STEPS -> pieces[(int) Arrays.stream(edges).filter(edge -> edge <= x).count()];
        // Near each of the points of a test, which lie 10 % apart or more, it is one.
        case INDEPENDENT ->
            points.computeIfAbsent(Math.round(percent / 5.0), p -> own.nextDouble(-1.0, 1.0));
      };
    };
  }
}
