package org.benchstroke.judge;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.function.Function;
import org.benchstroke.procedure.Aim;
import org.benchstroke.record.Entry;
import org.benchstroke.record.Event;
import org.benchstroke.record.RunFault;
import org.benchstroke.record.RunRecord;

/**
 * What a record holds from one change of the signal or of the motor supply to the next: the change,
 * and what the unit did then. Immutable.
 */
public final class Passage {
  private final Optional<Event> change;
  private final Optional<Event.Commanded> before;
  private final List<Entry> entries;
  private final Function<Entry, Optional<Aim>> aims;
  private final boolean powered;
  private final boolean doubted;

  private Passage(
      Optional<Event> change,
      Optional<Event.Commanded> before,
      List<Entry> entries,
      Function<Entry, Optional<Aim>> aims,
      boolean powered,
      boolean doubted) {
    this.change = change;
    this.before = before;
    this.entries = entries;
    this.aims = aims;
    this.powered = powered;
    this.doubted = doubted;
  }

  /** Those of a whole record, whatever its steps are for. */
  public static List<Passage> all(RunRecord record) {
    return cut(record.entries(), entry -> Optional.empty());
  }

  /**
   * Cuts lines where the unit is told something new. What comes before the first change is a
   * passage without one.
   *
   * @param aims what a line is for
   */
  static List<Passage> cut(List<Entry> entries, Function<Entry, Optional<Aim>> aims) {
    boolean[] doubted = doubted(entries);
    List<Passage> all = new ArrayList<>();
    Optional<Event> change = Optional.empty();
    Optional<Event.Commanded> before = Optional.empty();
    boolean powered = true;
    int from = 0;
    for (int i = 0; i <= entries.size(); i++) {
      if (i < entries.size() && !changes(entries.get(i).event())) {
        continue;
      }
      if (i > 0) {
        all.add(
            new Passage(change, before, entries.subList(from, i), aims, powered, doubted[from]));
      }
      if (i < entries.size()) {
        before = command(change);
        change = Optional.of(entries.get(i).event());
        powered = entries.get(i).event() instanceof Event.Powered p ? p.on() : powered;
        from = i;
      }
    }
    return all;
  }

  private static boolean changes(Event event) {
    return event instanceof Event.Commanded
        || event instanceof Event.Disturbed
        || event instanceof Event.MadeSafe
        || event instanceof Event.Powered
        || event instanceof Event.Closed;
  }

  /** The lines of attempts in which an instrument or a link failed. */
  private static boolean[] doubted(List<Entry> entries) {
    boolean[] doubted = new boolean[entries.size()];
    int from = -1;
    boolean faulted = false;
    for (int i = 0; i < entries.size(); i++) {
      Event event = entries.get(i).event();
      if (event instanceof Event.TestBegan) {
        from = i;
        faulted = false;
      } else if (event instanceof Event.Faulted) {
        faulted = true;
      } else if (event instanceof Event.TestEnded && from >= 0) {
        Arrays.fill(doubted, from, i, faulted);
        from = -1;
      }
    }
    return doubted;
  }

  private static Optional<Event.Commanded> command(Optional<Event> change) {
    return change.filter(Event.Commanded.class::isInstance).map(Event.Commanded.class::cast);
  }

  /** All of its lines, that of the change included. */
  List<Entry> entries() {
    return entries;
  }

  /** What changed. */
  public Optional<Event> change() {
    return change;
  }

  /** When its change was written, s; of the first of a record when that begins. */
  public double beganSeconds() {
    return Samples.seconds(entries.get(0).nanos());
  }

  /** The setpoint that was given; empty if something else changed. */
  public Optional<Event.Commanded> commanded() {
    return command(change);
  }

  /** The loss of the signal that it begins with; empty if something else changed. */
  public Optional<Event.Disturbed> disturbed() {
    return change.filter(Event.Disturbed.class::isInstance).map(Event.Disturbed.class::cast);
  }

  /** The setpoint in force just before; empty if there was none. */
  public Optional<Event.Commanded> before() {
    return before;
  }

  /** By how much its setpoint differs from the one before, %; empty if one of them is missing. */
  public Optional<Double> changePercent() {
    return commanded().flatMap(now -> before.map(b -> now.setpointPercent() - b.setpointPercent()));
  }

  /** What came after the change. */
  public Lines lines() {
    return new Lines(change.isPresent() ? entries.subList(1, entries.size()) : entries);
  }

  /** The waits for rest, in order. */
  public List<RestWait> rests() {
    List<RestWait> rests = new ArrayList<>();
    for (int i = 0; i < entries.size(); i++) {
      if (entries.get(i).event() instanceof Event.Rested rested) {
        Lines after = new Lines(entries.subList(i + 1, entries.size()));
        rests.add(new RestWait(this, rested, aims.apply(entries.get(i)), after));
      }
    }
    return rests;
  }

  /** What was watched without a wait for rest, with what that was for. */
  List<Watch> watches() {
    return entries.stream()
        .filter(e -> e.event() instanceof Event.Watched)
        .map(e -> new Watch((Event.Watched) e.event(), aims.apply(e)))
        .toList();
  }

  record Watch(Event.Watched watched, Optional<Aim> aim) {}

  /**
   * Whether the unit was told a setpoint that it could come to: one without power has none, nor has
   * one whose source lost its setting.
   */
  public boolean isTold() {
    return commanded().isPresent() && powered && lines().fault(RunFault.SETTING_LOST).isEmpty();
  }

  /**
   * Whether an instrument or a link failed in the same attempt of its test: what was read before
   * that was noticed may be no truer.
   */
  public boolean isDoubted() {
    return doubted;
  }
}
