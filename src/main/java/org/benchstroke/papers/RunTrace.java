package org.benchstroke.papers;

import java.util.ArrayList;
import java.util.List;
import org.benchstroke.judge.JudgedRun;
import org.benchstroke.judge.Samples;
import org.benchstroke.papers.plot.Decimation.Sample;
import org.benchstroke.papers.plot.TimePlot;
import org.benchstroke.record.Entry;
import org.benchstroke.record.Event;

/**
 * The traces of a run, out of its record, in seconds since the record was opened. Immutable.
 *
 * @param position the position by the unit's feedback, % of travel
 * @param setpoints the setpoints that were in force
 * @param tests where each attempt of a test began
 * @param disturbances when the signal was disturbed
 * @param endSeconds the time of the last entry, s
 * @param gapSeconds samples further apart than this have a gap between them, s
 */
record RunTrace(
    List<Sample> position,
    List<TimePlot.Step> setpoints,
    List<TimePlot.Mark> tests,
    List<TimePlot.Disturbance> disturbances,
    double endSeconds,
    double gapSeconds) {
  static RunTrace of(JudgedRun run) {
    Samples samples = new Samples(run.bench(), run.unit());
    List<Sample> position =
        run.record()
            .events(Event.Sampled.class)
            .filter(s -> s.channel().equals("position"))
            .map(s -> sample(s, samples.percent(s)))
            .toList();
    List<Entry> entries = run.record().entries();
    double end = seconds(entries.get(entries.size() - 1).nanos());
    Reader reader = new Reader();
    entries.forEach(reader::take);
    reader.finish(end);
    double gap = run.unit().practice().gapPeriods() * run.bench().samplePeriodSeconds();
    return new RunTrace(position, reader.setpoints, reader.tests, reader.disturbances, end, gap);
  }

  private static Sample sample(Event.Sampled s, double percent) {
    // the middle of the exchange is the best stamp
    double at = seconds(s.askedNanos()) / 2.0 + seconds(s.answeredNanos()) / 2.0;
    return new Sample(at, percent, s.saturated());
  }

  private static double seconds(long nanos) {
    return nanos / 1e9;
  }

  /** Follows the record and notes from when to when each signal was in force. */
  private static final class Reader {
    final List<TimePlot.Step> setpoints = new ArrayList<>();
    final List<TimePlot.Mark> tests = new ArrayList<>();
    final List<TimePlot.Disturbance> disturbances = new ArrayList<>();
    private Event inForce = new Event.Powered(false, "");
    private double since;

    void take(Entry entry) {
      Event event = entry.event();
      if (event instanceof Event.Commanded commanded) {
        change(event, seconds(commanded.answeredNanos()));
      } else if (event instanceof Event.Disturbed disturbed) {
        change(event, seconds(disturbed.answeredNanos()));
      } else if (event instanceof Event.MadeSafe) {
        change(event, seconds(entry.nanos()));
      } else if (event instanceof Event.TestBegan test) {
        String again = test.attempt() > 1 ? " (attempt " + test.attempt() + ")" : "";
        tests.add(new TimePlot.Mark(seconds(entry.nanos()), test.test() + again));
      }
    }

    void finish(double end) {
      change(inForce, end);
    }

    private void change(Event next, double at) {
      if (inForce instanceof Event.Commanded commanded) {
        setpoints.add(new TimePlot.Step(since, at, commanded.setpointPercent()));
      } else if (inForce instanceof Event.Disturbed disturbed) {
        disturbances.add(new TimePlot.Disturbance(since, at, disturbed.what()));
      }
      inForce = next;
      since = at;
    }
  }
}
