package org.benchstroke.speed;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.benchstroke.core.analysis.Trace;

/**
 * A made-up unit that is stepped up and down over its travel, read 20 times a second: a dead time,
 * constant speed, at every seventh step an overshoot, an error that depends on place and direction,
 * then rest, with noise, a step of the reading and stamps that are not quite even. The same seed
 * gives the same samples. Immutable.
 *
 * @param trace all samples
 * @param steps when the setpoint changed, and from where to where
 */
record MadeUpTrace(Trace trace, List<Change> steps) {
  static final double PERIOD = 0.05;
  static final double RESOLUTION = 0.0025;
  static final double FASTEST = 7.5;
  static final double NOISE = 0.005;
  static final double SPEED = 5.0;
  private static final double OVERSHOOT = 1.5;
  private static final double STAIR = 25.0;
  private static final long SEED = 20;

  /** A change of the setpoint, s and %, and by how much the position then goes beyond its end. */
  record Change(double seconds, double from, double to, double beyond) {}

  MadeUpTrace {
    steps = List.copyOf(steps);
  }

  static MadeUpTrace of(int samples) {
    Random random = new Random(SEED);
    Trace.Builder builder = Trace.builder(samples);
    List<Change> changes = new ArrayList<>();
    double setpoint = 0.0;
    boolean up = true;
    double rest = 0.0;
    int at = rested(builder, random, rest, 0, 200);
    while (at < samples) {
      up = setpoint <= 0.0 || (up && setpoint < 100.0);
      double next = setpoint + (up ? STAIR : -STAIR);
      double began = (at - 0.5) * PERIOD + random.nextDouble() * 0.02;
      double end = next + error(next, up) + 0.02 * random.nextGaussian();
      double over = changes.size() % 7 == 6 ? OVERSHOOT : 0.0;
      changes.add(new Change(began, setpoint, next, over));
      int hold = 1000 + random.nextInt(400);
      // No short hold at the end: a step needs its rest.
      hold = samples - at - hold < 1400 ? samples - at : hold;
      for (int i = 0; i < hold; i++) {
        double stamp = stamp(random, at + i);
        double moved = SPEED * Math.max(0.0, stamp - began - 0.3);
        double y = path(rest, end, over, moved);
        builder.add(stamp, 0.001, read(random, y), false);
      }
      at += hold;
      rest = end;
      setpoint = next;
    }
    return new MadeUpTrace(builder.build(), changes);
  }

  /** On to the end and beyond it, a second there, and back. */
  private static double path(double from, double to, double over, double moved) {
    double sign = Math.signum(to - from);
    double way = Math.abs(to - from);
    if (moved <= way + over) {
      return from + sign * moved;
    }
    double back = Math.max(0.0, moved - way - over - SPEED);
    return to + sign * Math.max(0.0, over - back);
  }

  private static double error(double percent, boolean up) {
    return 0.3 * Math.sin(percent / 30.0) + (up ? -0.15 : 0.15);
  }

  private static int rested(Trace.Builder builder, Random random, double y, int from, int count) {
    for (int i = from; i < from + count; i++) {
      builder.add(stamp(random, i), 0.001, read(random, y), false);
    }
    return from + count;
  }

  private static double stamp(Random random, int index) {
    return index * PERIOD + (random.nextDouble() - 0.5) * 0.004;
  }

  private static double read(Random random, double y) {
    return Math.rint((y + NOISE * random.nextGaussian()) / RESOLUTION) * RESOLUTION;
  }
}
