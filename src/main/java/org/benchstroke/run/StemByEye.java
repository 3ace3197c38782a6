package org.benchstroke.run;

import java.util.Locale;
import java.util.OptionalDouble;
import org.benchstroke.bench.InstrumentSpec;
import org.benchstroke.clock.BenchClock;
import org.benchstroke.instrument.Channel;
import org.benchstroke.instrument.Reading;
import org.benchstroke.instrument.Role;
import org.benchstroke.quantity.Numbers;
import org.benchstroke.quantity.Position;
import org.benchstroke.record.Event;

/**
 * Has the stem's angle read by a person, at points of rest only. While that person looks, nothing
 * is sampled; the feedback is read again before the reading counts, so that a unit that moved
 * meanwhile is noticed. The runner's thread only.
 */
final class StemByEye {
  /** How often a reading is asked for anew because the unit moved. */
  private static final int TRIES = 3;

  /** What a stem can show beyond its travel, as a share of it. */
  private static final double BEYOND = 0.1;

  private final InstrumentSpec spec;
  private final Channel channel;
  private final RunPlan plan;
  private final BenchClock clock;
  private final RunLog log;
  private final Sampler sampler;
  private final Operator operator;

  StemByEye(
      InstrumentSpec spec,
      RunPlan plan,
      BenchClock clock,
      RunLog log,
      Sampler sampler,
      Operator operator) {
    this.spec = spec;
    this.channel = spec.channels().get(Role.ANGLE_REFERENCE);
    this.plan = plan;
    this.clock = clock;
    this.log = log;
    this.sampler = sampler;
    this.operator = operator;
  }

  /**
   * Asks, and writes what was typed.
   *
   * @param point the point of the test
   * @param restPercent where the feedback came to rest, %
   * @param limitPercent how far a reading of it may lie from there, %
   * @throws TestVoid if the unit did not stand still meanwhile
   * @throws RunEnded if nobody reads
   */
  void read(String point, double restPercent, double limitPercent) throws TestVoid, RunEnded {
    String detail = "";
    for (int attempt = 1; attempt <= TRIES; attempt++) {
      ask(point);
      sampler.commanded();
      Reading<Position> now = sampler.next();
      double moved = Math.abs(now.value().percent() - restPercent);
      if (moved <= limitPercent) {
        return;
      }
      detail =
          "at \""
              + point
              + "\" the position moved by "
              + Numbers.fixed(moved, 2)
              + " % while the stem was read";
      log.write(new Event.Faulted("moved while read", spec.name(), detail));
    }
    throw new TestVoid(detail);
  }

  private void ask(String point) throws RunEnded {
    long asked = clock.nanos();
    OptionalDouble typed = operator.read(question(point));
    if (typed.isEmpty()) {
      throw new RunEnded(
          RunEnded.How.STOPPED, "the stem angle at \"" + point + "\" was not read and typed in");
    }
    double degrees = typed.getAsDouble();
    log.write(
        new Event.Sampled(
            "stem",
            degrees,
            "deg",
            channel.qualityAt(degrees).name().toLowerCase(Locale.ROOT),
            "typed in by " + plan.operator() + ": " + Numbers.plain(degrees),
            log.since(asked),
            log.since(clock.nanos())));
  }

  private DisplayQuestion question(String point) {
    double travel = plan.unit().travelDegrees();
    return new DisplayQuestion(
        spec.name(),
        "stem angle",
        point,
        "°",
        channel.resolution(),
        channel.low().orElse(-BEYOND * travel),
        channel.high().orElse((1.0 + BEYOND) * travel));
  }
}
