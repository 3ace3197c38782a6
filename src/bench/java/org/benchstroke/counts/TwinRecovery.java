package org.benchstroke.counts;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.Callable;
import java.util.function.LongFunction;
import java.util.function.Predicate;
import java.util.function.ToDoubleFunction;
import org.benchstroke.aids.twin.FittedValue;
import org.benchstroke.aids.twin.Recovery;

/**
 * How well twins find the hidden settings of 500 drawn units: two thirds were there to tune on
 * while the fit was made, a third was held out. Units whose run does not tell h_off − coast to a
 * tenth are run once more with five times as many stops. Published in docs/explanation/twin.md.
 * {@code -Dbench.java=-Dtwin.units=40} takes so many of each only, {@code -Dtwin.strokes=fast}
 * those of 3 to 8 s, {@code slow} those of 30 to 60 s.
 */
public final class TwinRecovery {
  private static final int TUNED = 333;
  private static final int HELD_FROM = 901;
  private static final int HELD_TO = 1067;

  /** "usual", "fast", "slow", or all of them. */
  private static final String STROKES = System.getProperty("twin.strokes", "");

  /** Units of strokes that are shorter or longer, none of which was there to tune on. */
  private static final int OTHERS = 60;

  private TwinRecovery() {}

  /** How many units of each kind are asked for: fewer while the fit is worked on. */
  public static int asked() {
    return Integer.getInteger("twin.units", TUNED);
  }

  /** One of them, as short as it is; {@link #run} says what it throws. */
  public static void one() throws Exception {
    table("1 unit of 3 to 8 s", recovered(901, 901, Recovery::fast));
  }

  /**
   * Recovers at most so many of each kind and prints tables of them.
   *
   * @throws IllegalStateException if not nine of ten are explained
   */
  public static void run(int most) throws Exception {
    int others = Math.min(OTHERS, most);
    if (STROKES.isEmpty() || STROKES.equals("usual")) {
      usual(most);
    }
    if (STROKES.isEmpty() || STROKES.equals("fast")) {
      table(others + " units of 3 to 8 s", recovered(901, 900 + others, Recovery::fast));
    }
    if (STROKES.isEmpty() || STROKES.equals("slow")) {
      table(others + " units of 30 to 60 s", recovered(901, 900 + others, Recovery::slow));
    }
  }

  private static void usual(int most) throws Exception {
    int tunedTo = Math.min(TUNED, most);
    int heldTo = Math.min(HELD_TO, HELD_FROM + most - 1);
    List<Recovery> tuned = recovered(1, tunedTo, Recovery::of);
    List<Recovery> held = recovered(HELD_FROM, heldTo, Recovery::of);
    table("units 1 to " + tunedTo + ", there to tune on", tuned);
    table("units " + HELD_FROM + " to " + heldTo + ", held out", held);
    List<Recovery> all = new ArrayList<>(tuned);
    all.addAll(held);
    table("all", all);
    List<Callable<Recovery>> again = new ArrayList<>();
    all.stream().filter(r -> !r.tellsLead()).forEach(r -> again.add(r::longer));
    leads("those whose run does not tell it, with ten cycles", Work.all("longer", again));
  }

  private static List<Recovery> recovered(int from, int to, LongFunction<Recovery> of)
      throws Exception {
    List<Callable<Recovery>> runs = new ArrayList<>();
    for (int seed = from; seed <= to; seed++) {
      int drawn = seed;
      runs.add(() -> of.apply(drawn));
    }
    List<Recovery> units = Work.all("twins", runs);
    units.stream().filter(r -> !good(r)).forEach(System.out::println);
    return units;
  }

  private static boolean good(Recovery r) {
    return r.explained() && r.startError() <= 0.05 && r.leadError() <= 0.1;
  }

  private static void table(String title, List<Recovery> units) {
    if (10 * units.stream().filter(Recovery::explained).count() < 9L * units.size()) {
      throw new IllegalStateException("the model explains too few of the " + title);
    }
    System.out.println(title);
    line("h_on and h_off - coast found", units, r -> r.start().isPresent() && r.lead().isPresent());
    line("the model explains the run", units, Recovery::explained);
    line("h_on within 5 %", units, r -> r.startError() <= 0.05);
    line("U of h_on covers", units, Recovery::startCovered);
    leads("h_off - coast", units);
    units.get(0).hidden().keySet().stream().sorted().forEach(key -> fitted(key, units));
  }

  private static void fitted(String key, List<Recovery> units) {
    List<Recovery> told = units.stream().filter(r -> r.twin().found(key).isPresent()).toList();
    line(key + " found", units, told::contains);
    line(key + ", U covers", told, r -> r.covered(key));
    largest(key + ", largest error", told, r -> r.off(key));
  }

  private static void leads(String title, List<Recovery> units) {
    System.out.println("  " + title + ":");
    line("within 10 %", units, r -> r.leadError() <= 0.1);
    List<Recovery> told = units.stream().filter(Recovery::tellsLead).toList();
    line("within 10 %, of those whose U is 10 % or less", told, r -> r.leadError() <= 0.1);
    line("U covers", units, Recovery::leadCovered);
    largest("largest error, % of travel", units, Recovery::leadOff);
    largest("largest error, looks of the controller", units, r -> r.leadOff() / r.lookPercent());
    largest("largest U, % of travel", units, r -> r.lead().map(FittedValue::half).orElse(0.0));
    List<Recovery> missed = units.stream().filter(r -> r.leadError() > 0.1).toList();
    largest("largest that is not within 10 %, % of travel", missed, TwinRecovery::hidden);
    List<Recovery> untold = units.stream().filter(r -> !r.tellsLead()).toList();
    largest("largest whose U is more than 10 %, % of travel", untold, TwinRecovery::hidden);
  }

  private static double hidden(Recovery r) {
    return Math.abs(r.unit().leadPercent());
  }

  private static void largest(String what, List<Recovery> units, ToDoubleFunction<Recovery> of) {
    double most = units.stream().mapToDouble(of).max().orElse(0.0);
    System.out.println("  " + what + ": " + String.format(Locale.ROOT, "%.4f", most));
  }

  private static void line(String what, List<Recovery> units, Predicate<Recovery> which) {
    long count = units.stream().filter(which).count();
    System.out.println(
        "  "
            + what
            + ": "
            + count
            + " of "
            + units.size()
            + String.format(Locale.ROOT, " (%.1f %%)", 100.0 * count / Math.max(1, units.size())));
  }
}
