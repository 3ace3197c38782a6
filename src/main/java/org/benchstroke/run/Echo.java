package org.benchstroke.run;

import java.util.ArrayList;
import java.util.List;
import org.benchstroke.procedure.Expansion;
import org.benchstroke.procedure.PlannedTest;
import org.benchstroke.record.Event;
import org.benchstroke.record.Label;

/**
 * What is about to be tested, and how, for a person to compare with what stands on the bench before
 * it moves. Immutable.
 *
 * @param lines in the order in which they are shown
 */
public record Echo(List<Line> lines) {
  private static final double SECONDS_A_MINUTE = 60.0;

  /**
   * A line of it.
   *
   * @param name what is said, in words
   * @param value what it is
   */
  public record Line(String name, String value) {}

  public Echo {
    lines = List.copyOf(lines);
  }

  /** Of a run that is planned. */
  public static Echo of(RunPlan plan) {
    double period = plan.bench().samplePeriodSeconds();
    return of(plan, Expansion.of(plan.procedure(), plan.unit(), period));
  }

  /** Of a run. */
  static Echo of(RunPlan plan, Expansion expansion) {
    List<Line> lines = new ArrayList<>();
    lines.add(new Line(Label.SERIAL.words(), plan.serial()));
    lines.add(new Line(Label.ORDER.words(), plan.order()));
    plan.job()
        .map(Event.Job::facts)
        .filter(facts -> facts.containsKey(Label.TAG))
        .ifPresent(facts -> lines.add(new Line(Label.TAG.words(), facts.get(Label.TAG))));
    lines.add(new Line("unit type", plan.unit().name()));
    lines.add(new Line("signal range", plan.unit().signal().toString()));
    lines.add(new Line("on loss of signal", plan.unit().signalLoss().action().key()));
    lines.add(new Line("safe signal", plan.unit().safeSignal().toString()));
    lines.add(
        new Line(
            "procedure",
            plan.procedure().name()
                + ", version "
                + plan.procedure().version()
                + ", about "
                + minutes(seconds(plan, expansion))));
    lines.add(new Line(Label.OPERATOR.words(), plan.operator()));
    plan.before().said().forEach(said -> lines.add(new Line("note", said)));
    plan.before().notAsOrdered().forEach(said -> lines.add(new Line("NOT AS ORDERED", said)));
    return new Echo(lines);
  }

  /** What of the unit is not as ordered, by its set-up. */
  static Echo differences(RunPlan plan) {
    return new Echo(
        plan.before().notAsOrdered().stream()
            .map(said -> new Line("NOT AS ORDERED", said))
            .toList());
  }

  /** Of what is left to be done. */
  private static double seconds(RunPlan plan, Expansion expansion) {
    return expansion.tests().stream()
        .filter(test -> plan.before().resumed().filter(r -> r.counts(test)).isEmpty())
        .mapToDouble(PlannedTest::seconds)
        .sum();
  }

  private static String minutes(double seconds) {
    long whole = Math.max(1, Math.round(seconds / SECONDS_A_MINUTE));
    return whole + (whole == 1 ? " minute" : " minutes");
  }
}
