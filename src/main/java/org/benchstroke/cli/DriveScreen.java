package org.benchstroke.cli;

import java.util.function.IntSupplier;
import org.benchstroke.cli.Shown.Control;
import org.benchstroke.commission.HandDrive;
import org.benchstroke.commission.HandState;
import org.benchstroke.core.clock.BenchClock;

/**
 * Shows a drive by hand. On a terminal the live line stands above the line on which is typed, and
 * is redrawn without touching it; elsewhere it is a plain line once a second.
 */
final class DriveScreen implements HandDrive.Screen {
  private static final String PROMPT = "  mA, %, + - safe q > ";
  private static final double REDRAW_SECONDS = 0.1;
  private static final double PLAIN_SECONDS = 1.0;

  private final Shown out;
  private final boolean live;
  private final BenchClock clock;
  private final IntSupplier columns;
  private double drawnAt = Double.NEGATIVE_INFINITY;
  private boolean prompted;

  DriveScreen(Shown out, boolean live, BenchClock clock, IntSupplier columns) {
    this.out = out;
    this.live = live;
    this.clock = clock;
    this.columns = columns;
  }

  @Override
  public void told(String line) {
    // What was typed has ended the prompt's line; what is told by itself must not overwrite it.
    out.println("  " + line);
    out.flush();
    prompted = false;
  }

  @Override
  public void shown(HandState state) {
    double now = clock.wallNanos() / 1e9;
    if (out.waiting() > 0
        || (prompted && now - drawnAt < (live ? REDRAW_SECONDS : PLAIN_SECONDS))) {
      return;
    }
    drawnAt = now;
    String line = "  " + state.line();
    int width = columns.getAsInt() - 1;
    String cut = line.length() <= width ? line : line.substring(0, width - 1) + "…";
    if (!live) {
      out.println(line);
    } else if (prompted) {
      out.control(Control.KEEP_PLACE, Control.LINE_UP, Control.CLEAR_LINE);
      out.print(cut);
      out.control(Control.BACK_TO_PLACE);
    } else {
      out.println(cut);
      out.print(PROMPT);
    }
    out.flush();
    prompted = true;
  }

  /** A line was typed: the next state is shown at once, on lines of its own. */
  void typed() {
    prompted = false;
  }
}
