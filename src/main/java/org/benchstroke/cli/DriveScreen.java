package org.benchstroke.cli;

import java.io.PrintWriter;
import org.benchstroke.clock.BenchClock;
import org.benchstroke.commission.HandDrive;
import org.benchstroke.commission.HandState;

/**
 * Shows a drive by hand. On a terminal the live line stands above the line on which is typed, and
 * is redrawn without touching it; elsewhere it is a plain line once a second.
 */
final class DriveScreen implements HandDrive.Screen {
  private static final String PROMPT = "  mA, %, + - safe q > ";
  private static final String LINE_ABOVE = "\u001b7\u001b[1A\r\u001b[K";
  private static final String BACK = "\u001b8";
  private static final double REDRAW_SECONDS = 0.1;
  private static final double PLAIN_SECONDS = 1.0;
  private static final int WIDTH = 118;

  private final PrintWriter out;
  private final boolean live;
  private final BenchClock clock;
  private double drawnAt = Double.NEGATIVE_INFINITY;
  private boolean prompted;

  DriveScreen(PrintWriter out, boolean live, BenchClock clock) {
    this.out = out;
    this.live = live;
    this.clock = clock;
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
    double now = clock.nanos() / clock.scale() / 1e9;
    if (prompted && now - drawnAt < (live ? REDRAW_SECONDS : PLAIN_SECONDS)) {
      return;
    }
    drawnAt = now;
    String line = "  " + state.line();
    String cut = line.length() <= WIDTH ? line : line.substring(0, WIDTH - 1) + "…";
    if (!live) {
      out.println(line);
    } else if (prompted) {
      out.print(LINE_ABOVE + cut + BACK);
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
