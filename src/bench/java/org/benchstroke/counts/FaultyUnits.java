package org.benchstroke.counts;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.concurrent.Callable;
import java.util.regex.Pattern;
import org.benchstroke.aids.diagnosis.Cause;
import org.benchstroke.judge.JudgedRun;
import org.benchstroke.judge.Word;
import org.benchstroke.simulator.practice.DrawnUnits;
import org.benchstroke.simulator.practice.FaultDraw;
import org.benchstroke.simulator.practice.Severity;

/**
 * Whether a unit with a clear fault can pass: drawn units of every cause by the routine acceptance,
 * on a bench with every instrument. The property {@code units} says how many, 20,000 unless told;
 * {@code from} the first seed, so that a count can be taken in parts; {@code
 * causes=WORN_SENSOR,HEALTHY} chooses; {@code links=true} lets their links fail, too.
 */
public final class FaultyUnits {
  private FaultyUnits() {}

  private record Judged(Cause cause, Word verdict, boolean passed, long seed) {}

  /** How many units are asked for. */
  public static int asked() {
    return Integer.getInteger("units", 20_000);
  }

  /**
   * Runs so many and prints a table of them.
   *
   * @throws IllegalStateException if one of them passed
   */
  public static void run(int many) throws Exception {
    long from = Long.getLong("from", 100_000L);
    DrawnUnits sound =
        DrawnUnits.of(Path.of("demo-data"), "routine-acceptance").withLimits(FaultDraw.LIMITS);
    DrawnUnits units =
        Boolean.getBoolean("links") ? sound.withLinkFaults(FaultDraw.LINK_FAULTS) : sound;
    List<Cause> causes = causes();
    List<Callable<Judged>> runs = new ArrayList<>();
    for (int i = 0; i < many; i++) {
      Cause cause = causes.get(i % causes.size());
      long seed = from + i / causes.size();
      runs.add(
          () -> {
            JudgedRun run = units.judge(cause, Severity.CLEAR, seed);
            return new Judged(cause, run.verdict(), run.passed(), seed);
          });
    }
    List<Judged> all = Work.all("faulty units", runs);
    System.out.println(table(all));
    if (all.stream().anyMatch(Judged::passed)) {
      throw new IllegalStateException("a unit with a clear fault passed");
    }
  }

  private static List<Cause> causes() {
    String some = System.getProperty("causes", "");
    if (!some.isEmpty()) {
      return Pattern.compile(",").splitAsStream(some).map(Cause::valueOf).toList();
    }
    return FaultDraw.ofTheUnit();
  }

  private static String table(List<Judged> all) {
    Map<Cause, int[]> rows = new EnumMap<>(Cause.class);
    for (Judged unit : all) {
      int[] row = rows.computeIfAbsent(unit.cause(), c -> new int[4]);
      row[0]++;
      row[unit.passed() ? 1 : unit.verdict() == Word.NO_RESULT ? 3 : 2]++;
    }
    StringBuilder text = new StringBuilder("| cause | units | passed | not passed | no result |\n");
    text.append("|---|---|---|---|---|\n");
    rows.forEach(
        (cause, row) ->
            text.append(
                String.format(
                    Locale.ROOT,
                    "| %s | %d | %d | %d | %d |%n",
                    cause.title(),
                    row[0],
                    row[1],
                    row[2],
                    row[3])));
    long passed = all.stream().filter(Judged::passed).count();
    text.append("\nPassed: " + passed + " of " + all.size() + ".\n");
    all.stream()
        .filter(Judged::passed)
        .limit(20)
        .forEach(u -> text.append("  " + u.cause() + " seed " + u.seed() + "\n"));
    return text.toString();
  }
}
