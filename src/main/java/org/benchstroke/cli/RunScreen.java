package org.benchstroke.cli;

import java.util.ArrayDeque;
import java.util.Deque;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.IntSupplier;
import org.benchstroke.core.clock.Stopwatch;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.procedure.Aim;
import org.benchstroke.procedure.Expansion;
import org.benchstroke.procedure.LossWay;
import org.benchstroke.procedure.PlannedTest;
import org.benchstroke.record.Entry;
import org.benchstroke.record.Event;
import org.benchstroke.record.Leg;
import org.benchstroke.run.Progress;
import org.benchstroke.run.Spectator;
import org.benchstroke.tests.loss.SignalLoss;
import org.benchstroke.tests.travel.TravelError;

/**
 * Shows a run at the terminal: a line for what is done, and one live line where there is a screen.
 * What a terminal that falls behind does not take is left out, and the screen says so.
 */
final class RunScreen implements Spectator {
  private static final int BAR_COLUMNS = 14;

  /** Some hundreds of lines: more than anybody reads when the terminal goes on. */
  private static final int MOST_WAITING = 65_536;

  private static final long REDRAW_NANOS = 100_000_000L;
  private static final int KEPT_SAMPLES = 200;

  private final Shown out;
  private final boolean live;
  private final double timeScale;
  private final IntSupplier columns;
  private final Deque<Event.Sampled> positions = new ArrayDeque<>();
  private boolean lineShown;
  private boolean preflight;
  private Expansion plan = new Expansion(List.of());
  private Optional<Stopwatch> drawn = Optional.empty();
  private long leftOut;

  /**
   * Shows nothing yet.
   *
   * @param live whether there is a screen for a live line
   * @param timeScale bench seconds per second of real time
   * @param columns of the screen
   */
  RunScreen(Shown out, boolean live, double timeScale, IntSupplier columns) {
    this.out = out;
    this.live = live;
    this.timeScale = timeScale;
    this.columns = columns;
  }

  /** All of it before anything moves, with how long it takes on a bench. */
  @Override
  public void planned(Expansion planned) {
    plan = planned;
    print("");
    print("Plan, about " + duration(plan.seconds()) + " of bench time");
    for (PlannedTest test : plan.tests()) {
      int steps = test.actions().size();
      print(
          String.format(
              Locale.ROOT,
              "  %-30s %4d %-5s  %s",
              test.name(),
              steps,
              steps == 1 ? "step" : "steps",
              duration(test.seconds())));
    }
  }

  @Override
  public void happened(Entry entry) {
    Event event = entry.event();
    if (event instanceof Event.Sampled sampled) {
      keep(sampled);
    } else if (event instanceof Event.Checked checked) {
      checked(checked);
    } else if (event instanceof Event.Resumed resumed) {
      print("");
      print(
          "Goes on with " + resumed.record() + ", of which " + resumed.lines() + " lines count", 2);
    } else if (event instanceof Event.TestBegan began) {
      began(began);
    } else if (event instanceof Event.TestEnded ended) {
      ended(ended);
    } else if (event instanceof Event.Rested rested) {
      rested(entry, rested);
    } else if (event instanceof Event.Disturbed disturbed) {
      print("  signal taken away: " + disturbed.what(), 4);
    } else if (event instanceof Event.Faulted fault) {
      print("  !! " + fault.fault() + ": " + fault.detail(), 5);
    }
  }

  @Override
  public void progressed(Progress progress) {
    boolean due = drawn.map(since -> since.nanos() >= REDRAW_NANOS).orElse(true);
    if (!live || !due || out.waiting() > 0) {
      return;
    }
    drawn = Optional.of(new Stopwatch());
    out.control(Shown.Control.CLEAR_LINE);
    out.print(line(progress, columns.getAsInt() - 1));
    out.flush();
    lineShown = true;
  }

  /**
   * The bar, too, where there is room for it; never wider than the screen, or it could not be
   * cleared.
   */
  private String line(Progress progress, int width) {
    String facts = facts(progress);
    boolean room = facts.length() + BAR_COLUMNS + 2 <= width;
    String line = (room ? "  " + bar(progress.done()) : "") + facts;
    return line.length() <= width ? line : line.substring(0, width);
  }

  private String facts(Progress progress) {
    String position =
        progress.positionPercent().isPresent()
            ? Numbers.fixed(progress.positionPercent().getAsDouble(), 2)
            : "–";
    return String.format(
        Locale.ROOT,
        "  setpoint %5s %%  position %6s %%  %-11s %3.0f %%  left %s",
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
    String named = String.format(Locale.ROOT, "  %-8s %-30s ", word, checked.check());
    print(named + checked.detail(), named.length());
  }

  private void began(Event.TestBegan began) {
    print("");
    String again = began.attempt() > 1 ? " (attempt " + began.attempt() + ")" : "";
    print(capital(began.test()) + again);
    if (plan.tests().get(began.index()).test() instanceof TravelError) {
      print("   setpoint   approached     position       error");
    }
  }

  private void ended(Event.TestEnded ended) {
    if (!ended.outcome().equals("complete")) {
      print("  " + ended.outcome() + ": " + ended.reason(), 4);
    }
  }

  private void rested(Entry entry, Event.Rested rested) {
    if (!rested.settled()) {
      print("  " + rested.label() + ": did not settle; no value is taken", 4);
      return;
    }
    OptionalDouble mean = mean(rested);
    if (mean.isEmpty()) {
      return;
    }
    double percent = mean.getAsDouble();
    boolean arrived = rested.leg() == Leg.ARRIVAL;
    Optional<Aim> aim = plan.aim(entry);
    if (arrived && aim.filter(TravelError.Place.class::isInstance).isPresent()) {
      print(
          String.format(
              Locale.ROOT,
              "   %6s %%   %-10s   %8s %%   %7s %%%s",
              Numbers.fixed(rested.setpointPercent(), 1),
              rested.direction(),
              Numbers.fixed(percent, 2),
              Numbers.signed(percent - rested.setpointPercent(), 2),
              rested.clean() ? "" : "   overran; taken again"));
    } else if (!rested.direction().equals("none") || lost(aim)) {
      print(
          String.format(
              Locale.ROOT, "  %-22s at rest at %7s %%", rested.label(), Numbers.fixed(percent, 2)));
    }
  }

  /** Without a signal, or back from there, nothing says which way the unit has to go. */
  private static boolean lost(Optional<Aim> aim) {
    return aim.filter(a -> a instanceof LossWay || a instanceof SignalLoss.Return).isPresent();
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

  private void print(String text, int indent) {
    print(Wrapped.text(text, columns.getAsInt(), indent));
  }

  private void print(String text) {
    if (out.waiting() > MOST_WAITING) {
      leftOut++;
      return;
    }
    tellLeftOut();
    if (lineShown) {
      out.control(Shown.Control.CLEAR_LINE);
      lineShown = false;
    }
    out.println(text);
  }

  /** The run has ended: nothing more will come of it. */
  void end() {
    tellLeftOut();
  }

  private void tellLeftOut() {
    if (leftOut > 0) {
      out.println();
      out.println(
          "  … " + leftOut + " lines left out: the terminal fell behind. The record has them.");
      leftOut = 0;
    }
  }

  private static String capital(String text) {
    return text.substring(0, 1).toUpperCase(Locale.ROOT) + text.substring(1);
  }
}
