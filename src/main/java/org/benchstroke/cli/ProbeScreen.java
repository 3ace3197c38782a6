package org.benchstroke.cli;

import java.util.List;
import java.util.Locale;
import java.util.OptionalDouble;
import java.util.function.IntSupplier;
import org.benchstroke.cli.Shown.Control;
import org.benchstroke.commission.RoleState;
import org.benchstroke.core.clock.BenchClock;
import org.benchstroke.core.quantity.Numbers;

/** A table of a bench's roles: redrawn in place on a terminal, else one plain table a second. */
final class ProbeScreen {
  private static final double REDRAW_SECONDS = 0.2;
  private static final double PLAIN_SECONDS = 1.0;
  private static final int RAW_WIDTH = 34;

  private final Shown out;
  private final boolean live;
  private final BenchClock clock;
  private final IntSupplier columns;
  private final long began;
  private double drawnAt = Double.NEGATIVE_INFINITY;
  private int linesShown;

  ProbeScreen(Shown out, boolean live, BenchClock clock, IntSupplier columns) {
    this.out = out;
    this.live = live;
    this.clock = clock;
    this.columns = columns;
    this.began = clock.wallNanos();
  }

  /** Draws the table if it is time to. */
  void shown(List<RoleState> states) {
    double now = (clock.wallNanos() - began) / 1e9;
    if (out.waiting() > 0 || now - drawnAt < (live ? REDRAW_SECONDS : PLAIN_SECONDS)) {
      return;
    }
    drawnAt = now;
    draw(states, now);
  }

  private void draw(List<RoleState> states, double seconds) {
    if (live) {
      for (int i = 0; i < linesShown; i++) {
        out.control(Control.LINE_UP, Control.CLEAR_LINE);
      }
    }
    int width = columns.getAsInt() - 1;
    out.println("after " + Numbers.fixed(seconds, 1) + " s");
    out.println(
        cut(row("instrument", "role", "value", "age s", "trip ms", "errors", "raw reply"), width));
    for (RoleState state : states) {
      out.println(cut(row(state), width));
    }
    out.flush();
    linesShown = states.size() + 2;
  }

  private static String row(RoleState state) {
    String range = state.saturated() ? " (END OF RANGE)" : "";
    return row(
        state.instrument(),
        state.role().key(),
        state.value() + range,
        number(state.ageSeconds(), 1),
        number(state.roundTripMillis(), 1),
        state.errors() == 0 ? "none" : Integer.toString(state.errors()),
        cut(state.raw(), RAW_WIDTH));
  }

  private static String row(
      String instrument,
      String role,
      String value,
      String age,
      String trip,
      String errors,
      String raw) {
    return String.format(
        Locale.ROOT,
        "  %-15s %-20s %-19s %5s %7s %6s  %s",
        cut(instrument, 15),
        role,
        value,
        age,
        trip,
        errors,
        raw);
  }

  private static String number(OptionalDouble value, int decimals) {
    return value.isPresent() ? Numbers.fixed(value.getAsDouble(), decimals) : "–";
  }

  private static String cut(String text, int most) {
    String whole = text.stripTrailing();
    return whole.length() <= most ? whole : whole.substring(0, most - 1) + "…";
  }
}
