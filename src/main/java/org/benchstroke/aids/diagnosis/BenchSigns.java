package org.benchstroke.aids.diagnosis;

import java.util.List;
import java.util.Optional;
import org.benchstroke.core.analysis.Trace;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.judge.JudgedRun;
import org.benchstroke.judge.Samples;
import org.benchstroke.record.CheckNames;
import org.benchstroke.record.Event;
import org.benchstroke.record.RunFault;

/** The signs of readings that can't be, and of a loop that does not carry what was set. */
final class BenchSigns {
  /** A sensor that loses its track jumps further, noise does not, % of travel. */
  private static final double FAR = 4.0;

  /** No unit shows a position so far from mid travel, %. */
  private static final double BEYOND = 55.0;

  /** What the loop may differ by, mA, before it says something. */
  private static final double LOOP = 0.03;

  /** So long before a jump it is looked for, s. */
  private static final double LOOKED_BACK = 2.0;

  /** So many readings alike are no chance: a quiet one changes by its last digit. */
  private static final int STOOD = 8;

  /** After so many readings a guard would have told that they stand still. */
  private static final int LIVED = 200;

  private final JudgedRun run;
  private final Trace position;
  private final Signs.Taker taker;

  BenchSigns(JudgedRun run, Trace position, Signs.Taker taker) {
    this.run = run;
    this.position = position;
    this.taker = taker;
  }

  void find() {
    Optional<Jump> jump = jump();
    boolean thawed = jump.filter(j -> j.same() >= STOOD).isPresent();
    boolean frozen = thawed || Signs.faulted(run, RunFault.FROZEN_VALUE);
    boolean blocked = !refused().isEmpty();
    boolean impossible = impossible();
    if (jump.isPresent() && !impossible && !thawed) {
      double most = jump.get().percent();
      String figures = Numbers.fixed(most, 1) + " % at once";
      taker.add(Sign.LARGE_JUMP, most > FAR, figures);
      taker.add(Sign.SMALL_JUMPS, most <= FAR, figures);
    } else if (run.complete()) {
      taker.add(Sign.LARGE_JUMP, false, "");
      taker.add(Sign.SMALL_JUMPS, false, "");
    }
    if (run.complete() || frozen || blocked || position.size() > LIVED) {
      taker.add(Sign.READING_FROZEN, frozen, "");
      taker.add(Sign.READING_IMPOSSIBLE, impossible, "");
      taker.add(Sign.NOISY_BEFORE_MOTION, blocked && !impossible, "");
    }
    loop();
  }

  /**
   * The largest jump around an impossible slew.
   *
   * @param percent how far, % of travel
   * @param same how many readings before it were the same to the last digit
   */
  private record Jump(double percent, int same) {
    static Jump in(Trace trace) {
      int at = 1;
      for (int i = 2; i < trace.size(); i++) {
        at = size(trace, i) > size(trace, at) ? i : at;
      }
      int same = 1;
      while (same < at && size(trace, at - same) == 0.0) {
        same++;
      }
      return new Jump(size(trace, at), same);
    }

    private static double size(Trace trace, int i) {
      return Math.abs(trace.percent(i) - trace.percent(i - 1));
    }
  }

  /** The one that ended the run; empty if none did. */
  private Optional<Jump> jump() {
    return run.record().entries().stream()
        .filter(e -> e.event() instanceof Event.Faulted f && f.fault() == RunFault.IMPOSSIBLE_SLEW)
        .findFirst()
        .map(e -> Samples.seconds(e.nanos()))
        .map(at -> position.between(at - LOOKED_BACK, at + 0.01))
        .filter(trace -> trace.size() > 1)
        .map(Jump::in);
  }

  /** What the preflight did not accept of the feedback before anything moved. */
  private List<Event.Checked> refused() {
    return run.record()
        .events(Event.Checked.class)
        .filter(c -> c.check().equals(CheckNames.NOISE_AT_REST) && c.outcome().equals("blocks"))
        .toList();
  }

  /** Whether the preflight read what no unit can show: then no reading tells of the unit. */
  boolean impossible() {
    return refused().stream()
        .anyMatch(
            c -> Math.abs(c.values().getOrDefault(CheckNames.MEAN_PERCENT, 50.0) - 50.0) > BEYOND);
  }

  private void loop() {
    List<Event.Checked> loops = loops(run);
    if (loops.isEmpty()) {
      return;
    }
    Event.Checked top = loops.get(loops.size() - 1);
    double missing = -off(top);
    List<Event.Checked> below = loops.subList(0, loops.size() - 1);
    boolean shortAtTop =
        !top.outcome().equals("ok") && missing > LOOP && (flat(below) || limited(below, top));
    taker.add(Sign.LOOP_SHORT_AT_TOP, shortAtTop, milliamps(-missing));
    boolean disagrees = loops.stream().anyMatch(c -> !c.outcome().equals("ok")) && !shortAtTop;
    taker.add(Sign.LOOP_DISAGREES, disagrees, milliamps(off(top)));
  }

  /** What was flowing beside what was set, of a bench with a loop meter. */
  static List<Event.Checked> loops(JudgedRun run) {
    return run.record()
        .events(Event.Checked.class)
        .filter(c -> c.values().containsKey(CheckNames.FOUND_MILLIAMPS))
        .toList();
  }

  private static boolean flat(List<Event.Checked> below) {
    return below.stream().allMatch(c -> Math.abs(off(c)) < LOOP);
  }

  /** Whether it carried no more at the top than below it, though more was set. */
  private static boolean limited(List<Event.Checked> below, Event.Checked top) {
    double most = top.values().get(CheckNames.FOUND_MILLIAMPS);
    return below.stream()
        .anyMatch(c -> Math.abs(c.values().get(CheckNames.FOUND_MILLIAMPS) - most) < LOOP);
  }

  private static double off(Event.Checked c) {
    return c.values().get(CheckNames.FOUND_MILLIAMPS)
        - c.values().getOrDefault(CheckNames.WANTED_MILLIAMPS, 0.0);
  }

  private static String milliamps(double value) {
    return Numbers.signed(value, 3) + " mA";
  }
}
