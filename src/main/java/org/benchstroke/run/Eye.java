package org.benchstroke.run;

import java.util.OptionalDouble;
import java.util.Set;
import org.benchstroke.bench.InstrumentSpec;
import org.benchstroke.core.clock.BenchClock;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.io.instrument.Channel;
import org.benchstroke.io.instrument.Doubt;
import org.benchstroke.io.instrument.LimitSwitch;
import org.benchstroke.io.instrument.Role;
import org.benchstroke.record.Event;

/** A person who reads an instrument without a port; what is typed goes into the record. */
final class Eye {
  private final InstrumentSpec spec;
  private final String operatorName;
  private final BenchClock clock;
  private final RunLog log;
  private final Operator operator;

  Eye(InstrumentSpec spec, RunPlan plan, BenchClock clock, RunLog log, Operator operator) {
    this.spec = spec;
    this.operatorName = plan.operator();
    this.clock = clock;
    this.log = log;
    this.operator = operator;
  }

  InstrumentSpec spec() {
    return spec;
  }

  Channel channel(Role role) {
    return spec.channels().get(role);
  }

  /**
   * Asks for a number, and writes what was typed.
   *
   * @param name the channel's name in the record
   * @param role whose channel it is
   * @param what what the display shows, for the person
   * @param point at which point of the test
   * @param low what can be read at least, where the channel does not state it
   * @param high and at most
   * @throws RunEnded if nobody reads
   */
  double read(String name, Role role, String what, String point, double low, double high)
      throws RunEnded {
    Channel channel = channel(role);
    DisplayQuestion question =
        new DisplayQuestion(
            spec.name(),
            what,
            point,
            channel.unit().equals("deg") ? "°" : channel.unit(),
            channel.resolution(),
            channel.low().orElse(low),
            channel.high().orElse(high));
    long asked = clock.nanos();
    double typed = typed(question);
    write(name, typed, channel.unit(), channel.doubtsOf(typed), asked);
    return typed;
  }

  /**
   * Asks whether a switch is made, and writes the answer.
   *
   * @throws RunEnded if nobody looks
   */
  void look(LimitSwitch which, String point) throws RunEnded {
    long asked = clock.nanos();
    double typed = typed(DisplayQuestion.ofSwitch(spec.name(), which.key() + " switch", point));
    write("switch " + which.key(), typed, DisplayQuestion.MADE, Doubt.NONE, asked);
  }

  private double typed(DisplayQuestion question) throws RunEnded {
    OptionalDouble typed = operator.answer(question).figure();
    if (typed.isEmpty()) {
      throw new RunEnded(
          RunEnded.How.STOPPED,
          "the " + question.what() + " (" + question.point() + ") was not read and typed in");
    }
    return typed.getAsDouble();
  }

  private void write(String name, double value, String unit, Set<Doubt> doubts, long asked) {
    log.write(
        new Event.Sampled(
            name,
            value,
            unit,
            doubts.contains(Doubt.SATURATED) ? Event.Sampled.SATURATED : Event.Sampled.GOOD,
            "typed in by " + operatorName + ": " + Numbers.plain(value),
            log.since(asked),
            log.since(clock.nanos())));
  }
}
