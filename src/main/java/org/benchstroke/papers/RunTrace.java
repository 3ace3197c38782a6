package org.benchstroke.papers;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.judge.JudgedRun;
import org.benchstroke.judge.Lines;
import org.benchstroke.judge.Passage;
import org.benchstroke.judge.Samples;
import org.benchstroke.papers.plot.Caption;
import org.benchstroke.papers.plot.Decimation.Sample;
import org.benchstroke.papers.plot.TimePlot;
import org.benchstroke.record.Entry;
import org.benchstroke.record.Event;
import org.benchstroke.record.RunRecord;

/** The picture of a whole run against time, out of its record. Stateless. */
final class RunTrace {
  private static final String TITLE = "The run against time";

  private RunTrace() {}

  /** Empty if no position was read. */
  static Optional<Block> picture(JudgedRun run) {
    RunRecord record = run.record();
    Samples samples = run.samples();
    List<Sample> position = Sample.of(samples.position(Lines.of(record)), 0.0);
    double end = Samples.seconds(record.entries().get(record.entries().size() - 1).nanos());
    if (position.isEmpty() || !(end > 0.0)) {
      return Optional.empty();
    }
    List<TimePlot.Step> setpoints = new ArrayList<>();
    List<TimePlot.Disturbance> disturbances = new ArrayList<>();
    signals(record, end, setpoints, disturbances);
    List<TimePlot.Mark> tests = tests(record);
    String description =
        "Setpoint and position during "
            + Numbers.fixed(end, 0)
            + " s, with "
            + tests.size()
            + " tests and "
            + disturbances.size()
            + " disturbances of the signal.";
    double gap = samples.longestPauseSeconds();
    TimePlot plot =
        new TimePlot(
            new Caption("time-plot", TITLE, description),
            end,
            position,
            gap,
            setpoints,
            tests,
            disturbances);
    String caption =
        TITLE
            + "; grey: no reading for more than "
            + Numbers.fixed(gap, 2)
            + " s, the line is broken there";
    return Optional.of(new Block.Picture(caption, plot.drawing()));
  }

  /** From when to when each signal was in force. */
  private static void signals(
      RunRecord record,
      double end,
      List<TimePlot.Step> setpoints,
      List<TimePlot.Disturbance> disturbances) {
    List<Passage> told =
        Passage.all(record).stream().filter(p -> inForceSeconds(p).isPresent()).toList();
    for (int i = 0; i < told.size(); i++) {
      double from = inForceSeconds(told.get(i)).orElseThrow();
      double to = i + 1 < told.size() ? inForceSeconds(told.get(i + 1)).orElseThrow() : end;
      told.get(i)
          .commanded()
          .ifPresent(c -> setpoints.add(new TimePlot.Step(from, to, c.setpointPercent())));
      told.get(i)
          .disturbed()
          .ifPresent(d -> disturbances.add(new TimePlot.Disturbance(from, to, d.what())));
    }
  }

  /** From when on the source gave the signal of a passage; empty if it began otherwise. */
  private static Optional<Double> inForceSeconds(Passage passage) {
    return passage
        .commanded()
        .map(Event.Commanded::answeredNanos)
        .or(() -> passage.disturbed().map(Event.Disturbed::answeredNanos))
        .map(Samples::seconds)
        .or(
            () ->
                passage
                    .change()
                    .filter(Event.MadeSafe.class::isInstance)
                    .map(safe -> passage.beganSeconds()));
  }

  /** Where each attempt of a test began. */
  private static List<TimePlot.Mark> tests(RunRecord record) {
    List<TimePlot.Mark> tests = new ArrayList<>();
    for (Entry entry : record.entries()) {
      if (entry.event() instanceof Event.TestBegan test) {
        String again = test.attempt() > 1 ? " (attempt " + test.attempt() + ")" : "";
        tests.add(new TimePlot.Mark(Samples.seconds(entry.nanos()), test.test() + again));
      }
    }
    return tests;
  }
}
