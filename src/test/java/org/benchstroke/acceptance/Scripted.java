package org.benchstroke.acceptance;

import org.benchstroke.record.Entry;
import org.benchstroke.record.Event;
import org.benchstroke.record.RunRecord;

/**
 * Writes tables {@code [[fault]]} of a simulation file, and finds the times for them. Stateless.
 */
public final class Scripted {
  /** Half an exchange takes 0.7 to 1.3 ms: one answer is given in this time, and no other. */
  static final double ONE_EXCHANGE_SECONDS = 0.0015;

  private Scripted() {}

  /** A fault, by exchange, time or chance. */
  public static String fault(String on, String kind, String keys) {
    return "\n[[fault]]\non = \"" + on + "\"\nkind = \"" + kind + "\"\n" + keys + "\n";
  }

  /** The keys of a fault that lasts from an instant of the bench on, both in s. */
  static String during(double fromSeconds, double seconds) {
    return "from_s = " + fromSeconds + "\nfor_s = " + seconds + "\n";
  }

  /** When the unit is half open in the first opening stroke of an attempt, s of the bench. */
  static double middleOfStroke(RunRecord record, int attempt) {
    return record.entries().stream()
            .dropWhile(entry -> !begins(entry.event(), attempt))
            .dropWhile(
                entry ->
                    !(entry.event() instanceof Event.Commanded c && c.setpointPercent() == 100.0))
            .filter(entry -> position(entry.event()) > 50.0)
            .mapToLong(Entry::nanos)
            .findFirst()
            .orElseThrow()
        / 1e9;
  }

  /** When the first position from an instant on is asked for, s of the bench. */
  static double positionAsked(RunRecord record, double fromSeconds) {
    return record
            .events(Event.Sampled.class)
            .filter(s -> s.channel().equals("position"))
            .mapToLong(Event.Sampled::askedNanos)
            .filter(nanos -> nanos >= fromSeconds * 1e9)
            .findFirst()
            .orElseThrow()
        / 1e9;
  }

  private static boolean begins(Event event, int attempt) {
    return event instanceof Event.TestBegan began
        && began.test().equals("stroke time")
        && began.attempt() == attempt;
  }

  private static double position(Event event) {
    return event instanceof Event.Sampled s && s.channel().equals("position")
        ? s.value()
        : Double.NaN;
  }
}
