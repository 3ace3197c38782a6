package org.benchstroke.run;

import java.util.Map;
import java.util.OptionalDouble;
import org.benchstroke.core.clock.BenchClock;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.procedure.Action;
import org.benchstroke.record.Event;

/** Asks for figures that were measured by other means. The runner's thread only. */
final class NoteTaker {
  private final RunPlan plan;
  private final BenchClock clock;
  private final RunLog log;
  private final Sampler sampler;
  private final Operator operator;

  NoteTaker(RunPlan plan, BenchClock clock, RunLog log, Sampler sampler, Operator operator) {
    this.plan = plan;
    this.clock = clock;
    this.log = log;
    this.sampler = sampler;
    this.operator = operator;
  }

  /** A figure that nobody gives is not recorded, and that is said. */
  void perform(Action.Note note) {
    String name = note.name();
    DisplayQuestion question =
        new DisplayQuestion(
            "other means", name, "recorded only", note.unit(), 0.0, -note.most(), note.most());
    long asked = clock.nanos();
    OptionalDouble typed = operator.answer(question).figure();
    if (typed.isEmpty()) {
      log.write(new Event.Checked(name, "warning", "not recorded: nobody gave a figure", Map.of()));
    } else {
      log.write(
          new Event.Sampled(
              name,
              typed.getAsDouble(),
              note.unit(),
              Event.Sampled.GOOD,
              "typed in by " + plan.operator() + ": " + Numbers.plain(typed.getAsDouble()),
              log.since(asked),
              log.since(clock.nanos())));
    }
    sampler.commanded();
  }
}
