package org.benchstroke.judge;

import java.util.List;
import org.benchstroke.record.Entry;
import org.benchstroke.record.Event;

/** Cuts a record's lines where the unit is told something new. Stateless. */
public final class Segments {
  private Segments() {}

  /** The lines from an index up to the next change of the signal or the motor supply. */
  public static List<Entry> untilNext(List<Entry> entries, int from) {
    int to = from;
    while (to < entries.size() && !changes(entries.get(to).event())) {
      to++;
    }
    return entries.subList(from, to);
  }

  public static boolean changes(Event event) {
    return event instanceof Event.Commanded
        || event instanceof Event.Disturbed
        || event instanceof Event.MadeSafe
        || event instanceof Event.Powered
        || event instanceof Event.Closed;
  }
}
