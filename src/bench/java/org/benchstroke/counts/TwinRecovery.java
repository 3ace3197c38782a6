package org.benchstroke.counts;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.Callable;
import java.util.function.Predicate;
import java.util.stream.DoubleStream;
import org.benchstroke.twin.Recovery;

/**
 * How well twins find the hidden settings of 500 drawn units: two thirds were there to tune on
 * while the fit was made, a third was held out. Published in docs/explanation/twin.md.
 */
public final class TwinRecovery {
  private static final int TUNED = 333;
  private static final int HELD_FROM = 701;
  private static final int HELD_TO = 867;

  private TwinRecovery() {}

  public static void run() throws Exception {
    List<Recovery> tuned = recovered(1, TUNED);
    List<Recovery> held = recovered(HELD_FROM, HELD_TO);
    table("units 1 to " + TUNED + ", there to tune on", tuned);
    table("units " + HELD_FROM + " to " + HELD_TO + ", held out", held);
    List<Recovery> all = new ArrayList<>(tuned);
    all.addAll(held);
    table("all", all);
  }

  private static List<Recovery> recovered(int from, int to) throws Exception {
    List<Callable<Recovery>> runs = new ArrayList<>();
    for (int seed = from; seed <= to; seed++) {
      int drawn = seed;
      runs.add(() -> Recovery.of(drawn));
    }
    List<Recovery> units = Work.all("twins", runs);
    units.stream().filter(r -> !good(r)).forEach(System.out::println);
    return units;
  }

  private static boolean good(Recovery r) {
    boolean lead = !large(r) || r.leadError() <= 0.1;
    return r.explained() && r.startError() <= 0.05 && lead;
  }

  /** The most that 0.01 % matters is a tenth. */
  private static boolean large(Recovery r) {
    return Math.abs(r.unit().leadPercent()) >= 0.1;
  }

  private static void table(String title, List<Recovery> units) {
    System.out.println(title);
    line("h_on and h_off - coast found", units, r -> r.start().isPresent() && r.lead().isPresent());
    line("the model explains the run", units, Recovery::explained);
    line("h_on within 5 %", units, r -> r.startError() <= 0.05);
    line("h_off - coast within 10 %", units, r -> r.leadError() <= 0.1);
    line(
        "  of those of 0.1 % of travel or more",
        units.stream().filter(TwinRecovery::large).toList(), r -> r.leadError() <= 0.1);
    line("U of h_on covers", units, Recovery::startCovered);
    line("U of h_off - coast covers", units, Recovery::leadCovered);
    System.out.println(
        "  largest error of h_off - coast, % of travel: "
            + String.format(Locale.ROOT, "%.3f", largest(units)));
  }

  private static double largest(List<Recovery> units) {
    return units.stream()
        .filter(r -> r.lead().isPresent())
        .flatMapToDouble(
            r -> DoubleStream.of(Math.abs(r.lead().get().value() - r.unit().leadPercent())))
        .max()
        .orElse(0.0);
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
            + String.format(Locale.ROOT, " (%.1f %%)", 100.0 * count / units.size()));
  }
}
