package org.benchstroke.run;

import java.util.Locale;
import java.util.Map;
import java.util.OptionalDouble;
import org.benchstroke.bench.InstrumentSpec;
import org.benchstroke.clock.BenchClock;
import org.benchstroke.instrument.Channel;
import org.benchstroke.instrument.Role;
import org.benchstroke.quantity.Current;
import org.benchstroke.quantity.Numbers;
import org.benchstroke.record.Event;

/**
 * Has the loop's current read by a person from a meter without a port, before anything moves. While
 * the unit is tested nobody reads it, and the record says so. The runner's thread only.
 */
final class LoopByEye {
  /** What a person can read where the meter's range is not stated, either polarity, mA. */
  private static final double BELIEVED_MILLIAMPS = 30.0;

  private final InstrumentSpec spec;
  private final Channel channel;
  private final RunPlan plan;
  private final BenchClock clock;
  private final RunLog log;
  private final Operator operator;

  LoopByEye(InstrumentSpec spec, RunPlan plan, BenchClock clock, RunLog log, Operator operator) {
    this.spec = spec;
    this.channel = spec.channels().get(Role.LOOP_METER);
    this.plan = plan;
    this.clock = clock;
    this.log = log;
    this.operator = operator;
  }

  /**
   * Asks, and writes what was typed.
   *
   * @param set what the source was set to
   * @throws RunEnded if nobody reads
   */
  Current read(Current set) throws RunEnded {
    String point = "source at " + set;
    long asked = clock.nanos();
    OptionalDouble typed = operator.read(question(point));
    if (typed.isEmpty()) {
      throw new RunEnded(
          RunEnded.How.STOPPED, "the loop current (" + point + ") was not read and typed in");
    }
    double milliamps = typed.getAsDouble();
    log.write(
        new Event.Sampled(
            "loop",
            milliamps,
            channel.unit(),
            channel.qualityAt(milliamps).name().toLowerCase(Locale.ROOT),
            "typed in by " + plan.operator() + ": " + Numbers.plain(milliamps),
            log.since(asked),
            log.since(clock.nanos())));
    return Current.ofMilliamps(milliamps);
  }

  /** Notes who reads the loop, how finely, and when nobody does. */
  void note(CheckList checks) {
    double half = channel.resolution() / 2.0;
    checks.warn(
        "loop during the tests",
        "\""
            + spec.name()
            + "\" is read by eye, typed in by "
            + plan.operator()
            + " before motion only: its step gives ± "
            + Numbers.plain(half)
            + " mA (rectangular), and the loop's current is not measured during the tests",
        Map.of("halfStepMilliamps", half));
  }

  private DisplayQuestion question(String point) {
    return new DisplayQuestion(
        spec.name(),
        "loop current",
        point,
        channel.unit(),
        channel.resolution(),
        channel.low().orElse(-BELIEVED_MILLIAMPS),
        channel.high().orElse(BELIEVED_MILLIAMPS));
  }
}
