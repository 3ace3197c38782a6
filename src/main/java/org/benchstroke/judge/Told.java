package org.benchstroke.judge;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import org.benchstroke.record.Entry;
import org.benchstroke.record.Event;
import org.benchstroke.record.FaultNames;
import org.benchstroke.record.Leg;
import org.benchstroke.record.RunRecord;

/**
 * What a record holds from one setpoint to the next change of the signal or of the motor supply, in
 * whatever test, attempt or pause between two tests. A unit without power, or without its signal,
 * has no setpoint to come to, nor has one whose source lost its setting.
 *
 * @param commanded the setpoint
 * @param changePercent by how much it differs from the one before; empty if there was none
 * @param entries the lines after it
 * @param doubted whether an instrument or a link failed in the same attempt of its test: what was
 *     read before that was noticed may be no truer
 */
public record Told(
    Event.Commanded commanded,
    Optional<Double> changePercent,
    List<Entry> entries,
    boolean doubted) {
  public Told {
    entries = List.copyOf(entries);
  }

  public static List<Told> all(RunRecord record) {
    List<Entry> entries = record.entries();
    boolean[] doubted = doubted(entries);
    List<Told> all = new ArrayList<>();
    boolean powered = true;
    Optional<Double> before = Optional.empty();
    for (int i = 0; i < entries.size(); i++) {
      Event event = entries.get(i).event();
      if (event instanceof Event.Powered power) {
        powered = power.on();
        before = Optional.empty();
      } else if (event instanceof Event.Commanded now) {
        Optional<Double> change = before.map(b -> now.setpointPercent() - b);
        Told told = new Told(now, change, Segments.untilNext(entries, i + 1), doubted[i]);
        if (powered && !told.settingLost()) {
          all.add(told);
        }
        before = Optional.of(now.setpointPercent());
      } else if (Segments.changes(event)) {
        before = Optional.empty();
      }
    }
    return all;
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

  /** A source that was reset meanwhile had the unit go elsewhere: nothing of that is the unit's. */
  private boolean settingLost() {
    return of(Event.Faulted.class).stream()
        .anyMatch(f -> f.fault().equals(FaultNames.SETTING_LOST));
  }

  /** Whether no test of the procedure asked for it: none waited for its rest or watched it. */
  boolean unasked() {
    return !doubted
        && watched().isEmpty()
        && !rests().isEmpty()
        && rests().stream().allMatch(r -> r.leg() == Leg.LEAD_IN);
  }

  /** The waits for rest, in order. */
  public List<Event.Rested> rests() {
    return of(Event.Rested.class);
  }

  /** What was watched: a judge of its own looks at that. */
  List<Event.Watched> watched() {
    return of(Event.Watched.class);
  }

  private <T extends Event> List<T> of(Class<T> kind) {
    return entries.stream().map(Entry::event).filter(kind::isInstance).map(kind::cast).toList();
  }
}
