package org.benchstroke.cli;

import java.io.PrintWriter;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.Locale;
import java.util.OptionalDouble;
import org.benchstroke.quantity.Numbers;
import org.benchstroke.record.Entry;
import org.benchstroke.record.Event;
import org.benchstroke.run.Progress;
import org.benchstroke.run.Spectator;

/**
 * Shows a run at the terminal: a line for what is done, and one live line where there is a screen.
 */
final class RunScreen implements Spectator {
  private static final String CLEAR_LINE = "\r\u001b[K";
  private static final long REDRAW_NANOS = 100_000_000L;
  private static final int KEPT_SAMPLES = 200;

  private final PrintWriter out;
  private final boolean live;
  private final double timeScale;
  private final Deque<Event.Sampled> positions = new ArrayDeque<>();
  private boolean lineShown;
  private boolean preflight;
  private long drawnAt = Long.MIN_VALUE;
  private long lastNanos;

  RunScreen(PrintWriter out, boolean live, double timeScale) {
    this.out = out;
    this.live = live;
    this.timeScale = timeScale;
  }

  @Override
  public void happened(Entry entry) {
    lastNanos = entry.nanos();
    Event event = entry.event();
    if (event instanceof Event.Sampled sampled) {
      keep(sampled);
    } else if (event instanceof Event.Checked checked) {
      checked(checked);
    } else if (event instanceof Event.TestBegan began) {
      began(began);
    } else if (event instanceof Event.TestEnded ended) {
      ended(ended);
    } else if (event instanceof Event.Rested rested) {
      rested(rested);
    } else if (event instanceof Event.Disturbed disturbed) {
      print("  signal taken away: " + disturbed.what());
    } else if (event instanceof Event.Faulted fault) {
      print("  !! " + fault.fault() + ": " + fault.detail());
    }
  }

  @Override
  public void progressed(Progress progress) {
    boolean due = drawnAt == Long.MIN_VALUE || lastNanos - drawnAt >= REDRAW_NANOS * timeScale;
    if (!live || !due) {
      return;
    }
    drawnAt = lastNanos;
    out.print(CLEAR_LINE + line(progress));
    out.flush();
    lineShown = true;
  }

  private String line(Progress progress) {
    String position =
        progress.positionPercent().isPresent()
            ? Numbers.fixed(progress.positionPercent().getAsDouble(), 2)
            : "–";
    return String.format(
        Locale.ROOT,
        "  %s   setpoint %6s %%   position %7s %%   %-11s %3.0f %%  left %s",
        bar(progress.done()),
        Numbers.fixed(progress.setpointPercent(), 1),
        position,
        progress.state(),
        progress.done() * 100.0,
        duration(progress.secondsLeft() / timeScale));
  }

  private static String bar(double done) {
    int filled = (int) Math.round(done * 12);
    return "[" + "#".repeat(filled) + ".".repeat(12 - filled) + "]";
  }

  private static String duration(double seconds) {
    long whole = Math.round(seconds);
    return whole >= 60 ? (whole / 60) + " min " + (whole % 60) + " s" : whole + " s";
  }

  private void checked(Event.Checked checked) {
    if (!preflight) {
      print("");
      print("Preflight");
      preflight = true;
    }
    String word = checked.outcome().equals("blocks") ? "BLOCKS" : checked.outcome();
    print(String.format(Locale.ROOT, "  %-8s %-30s %s", word, checked.check(), checked.detail()));
  }

  private void began(Event.TestBegan began) {
    print("");
    String again = began.attempt() > 1 ? " (attempt " + began.attempt() + ")" : "";
    print(capital(began.test()) + again);
    if (began.test().equals("travel error")) {
      print("   setpoint   approached     position       error");
    }
  }

  private void ended(Event.TestEnded ended) {
    if (!ended.outcome().equals("complete")) {
      print("  " + ended.outcome() + ": " + ended.reason());
    }
  }

  private void rested(Event.Rested rested) {
    if (!rested.settled()) {
      print("  " + rested.point() + ": did not settle; no value is taken");
      return;
    }
    OptionalDouble mean = mean(rested);
    if (mean.isEmpty()) {
      return;
    }
    double percent = mean.getAsDouble();
    if (rested.point().startsWith("travel ") && rested.cycle() > 0) {
      print(
          String.format(
              Locale.ROOT,
              "   %6s %%   %-10s   %8s %%   %7s %%%s",
              Numbers.fixed(rested.setpointPercent(), 1),
              rested.direction(),
              Numbers.fixed(percent, 2),
              Numbers.signed(percent - rested.setpointPercent(), 2),
              rested.clean() ? "" : "   came back; again"));
    } else if (!rested.direction().equals("none") || rested.point().startsWith("loss ")) {
      print(
          String.format(
              Locale.ROOT, "  %-22s at rest at %7s %%", rested.point(), Numbers.fixed(percent, 2)));
    }
  }

  private OptionalDouble mean(Event.Rested rested) {
    return positions.stream()
        .filter(
            s -> {
              long stamp = s.askedNanos() + (s.answeredNanos() - s.askedNanos()) / 2;
              return stamp >= rested.fromNanos() && stamp <= rested.toNanos();
            })
        .mapToDouble(Event.Sampled::value)
        .average();
  }

  private void keep(Event.Sampled sampled) {
    if (sampled.channel().equals("position")) {
      positions.addLast(sampled);
      if (positions.size() > KEPT_SAMPLES) {
        positions.removeFirst();
      }
    }
  }

  private void print(String text) {
    if (lineShown) {
      out.print(CLEAR_LINE);
      lineShown = false;
    }
    out.println(text);
  }

  private static String capital(String text) {
    return text.substring(0, 1).toUpperCase(Locale.ROOT) + text.substring(1);
  }
}
