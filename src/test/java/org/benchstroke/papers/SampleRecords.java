package org.benchstroke.papers;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.benchstroke.core.quantity.Position;
import org.benchstroke.core.quantity.SignalRange;
import org.benchstroke.record.Entry;
import org.benchstroke.record.Event;
import org.benchstroke.record.RunFault;
import org.benchstroke.record.RunRecord;

/** Records made by hand: a unit that moves at constant speed, read ten times a second. */
final class SampleRecords {
  private static final long SECOND = 1_000_000_000L;
  private static final long PERIOD = SECOND / 10;
  private static final double PERCENT_PER_PERIOD = 100.0 / 15.0 / 10.0;

  private final List<Entry> entries = new ArrayList<>();
  private long nanos;
  private double position;

  private SampleRecords() {}

  /** A whole run with a gap in the first travel test. */
  static RunRecord whole(String simulated, String serial) {
    SampleRecords r = new SampleRecords();
    r.open(simulated, serial);
    r.test(0, "exercise", 1, new double[] {100, 0, 100, 0}, 17);
    r.add(new Event.TestBegan(1, "travel error", 1));
    r.go(25, 8);
    r.nanos += 4 * PERIOD;
    r.add(
        new Event.Faulted(
            RunFault.GAP, "position input", "no reading for 0.5 s, 0.25 s is allowed"));
    r.add(new Event.TestEnded(1, "travel error", 1, "void", "gap of 0.4 s"));
    r.test(1, "travel error", 2, new double[] {25, 50, 75, 100, 75, 50, 25, 0, 50}, 9);
    r.add(new Event.TestBegan(2, "signal loss", 1));
    r.lose("3.9 mA", 3.9, false, 50, 12);
    r.go(50, 6);
    r.lose("open loop", 0.0, true, 0, 14);
    r.add(new Event.TestEnded(2, "signal loss", 1, "complete", ""));
    r.add(new Event.MadeSafe(4.0, true, "source reports 4.000 mA"));
    r.add(new Event.Closed("complete", "", 300.0));
    return new RunRecord(r.entries, List.of());
  }

  /** The transmitter stops answering; no closing line. */
  static RunRecord interrupted(String serial) {
    SampleRecords r = new SampleRecords();
    r.open("", serial);
    r.test(0, "exercise", 1, new double[] {100, 0}, 17);
    r.add(new Event.TestBegan(1, "travel error", 1));
    r.go(25, 9);
    r.go(50, 2);
    r.add(
        new Event.Faulted(
            RunFault.NO_REPLY,
            "position input",
            "no reply within 1 s to MEAS:CURR?; check its cable"));
    r.add(new Event.TestEnded(1, "travel error", 1, "void", "no reply from the transmitter"));
    r.add(new Event.MadeSafe(4.0, false, "no reply within 1 s"));
    return new RunRecord(r.entries, List.of("torn last line"));
  }

  private void open(String simulated, String serial) {
    add(
        new Event.Opened(
            Event.FORMAT,
            "benchstroke 0.1.0",
            simulated,
            1.0,
            serial,
            "R. Example",
            "order 4711-B",
            "Z",
            List.of(new Event.SourceFile("bench", "bench2.toml", "name = \"bench 2\"\n"))));
    add(
        new Event.Cautioned(
            "bench-only",
            "Bench only: the valve is out of the line and without pressure.",
            "enter pressed"));
    add(
        new Event.Cautioned(
            "moves",
            "The unit will move now: hands clear of valve and coupling.",
            "enter pressed"));
    add(
        new Event.Identified(
            "loop source",
            "Ostrava Invented LS-2 serial 8812",
            "Ostrava Invented LS-2 serial 8812",
            true));
    add(new Event.Identified("position input", "Ostrava Invented AI-4 serial 1177", "", true));
    add(
        new Event.Checked(
            "loop at 12 mA",
            "ok",
            "12.002 mA read, 12.000 mA set, 0.011 mA allowed",
            Map.of("read_ma", 12.002)));
    add(
        new Event.Checked(
            "accuracy ratio", "warning", "7.7: limit 1 % ÷ U 0.13 %", Map.of("ratio", 7.7)));
    nanos = 3 * SECOND;
  }

  private void test(int index, String name, int attempt, double[] setpoints, int seconds) {
    add(new Event.TestBegan(index, name, attempt));
    for (double setpoint : setpoints) {
      go(setpoint, seconds);
    }
    add(new Event.TestEnded(index, name, attempt, "complete", ""));
  }

  private void go(double setpoint, int seconds) {
    double current = SignalRange.FOUR_TO_TWENTY.currentAt(Position.ofPercent(setpoint)).milliamps();
    add(new Event.Commanded(setpoint, current, current, nanos, nanos + SECOND / 100));
    sample(setpoint, seconds);
  }

  private void lose(String what, double milliamps, boolean open, double goes, int seconds) {
    add(new Event.Disturbed(what, milliamps, open, nanos, nanos + SECOND / 100));
    sample(goes, seconds);
  }

  private void sample(double target, int seconds) {
    for (int i = 0; i < seconds * 10; i++) {
      nanos += PERIOD;
      double step = Math.max(-PERCENT_PER_PERIOD, Math.min(PERCENT_PER_PERIOD, target - position));
      position += step;
      long answered = nanos + SECOND / 200;
      add(new Event.Sampled("position", position, "%", "good", "", nanos, answered));
    }
  }

  private void add(Event event) {
    entries.add(new Entry(entries.size() + 1L, nanos, SampleRuns.began().plusNanos(nanos), event));
  }
}
