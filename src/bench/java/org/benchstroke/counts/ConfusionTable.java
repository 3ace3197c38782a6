package org.benchstroke.counts;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.concurrent.Callable;
import java.util.function.Predicate;
import org.benchstroke.diagnosis.Cause;
import org.benchstroke.diagnosis.Diagnosis;
import org.benchstroke.diagnosis.Evidence;
import org.benchstroke.diagnosis.Likelihoods;
import org.benchstroke.diagnosis.Ranked;
import org.benchstroke.diagnosis.Sign;
import org.benchstroke.practice.DrawnUnits;
import org.benchstroke.practice.FaultDraw;
import org.benchstroke.practice.Severity;
import org.benchstroke.verdict.JudgedRun;

/**
 * How often the diagnosis names the fault that was built in: drawn units of every cause and
 * severity in the procedure <em>fault finding</em>. Two thirds of the seeds count the likelihoods,
 * the others are held out. Writes {@code likelihoods.csv} and {@code confusion.md} into {@code
 * target/confusion}.
 */
public final class ConfusionTable {
  private static final int SEEDS = 40;
  private static final int TUNING = 27;

  /** More of the sound ones: one in a hundred is what is asked. */
  private static final int SOUND_SEEDS = 600;

  private static final int SOUND_TUNING = 400;

  /** Seeds held out begin so much later: the first ones held out were looked at. */
  private static final int HELD_OUT = 1_000;

  /** One unit and what its run showed. */
  private record Seen(
      Cause cause, Severity severity, boolean tuning, boolean passed, List<Evidence> evidence) {}

  private ConfusionTable() {}

  public static void run() throws Exception {
    DrawnUnits units = DrawnUnits.of(Path.of("demo-data"), "fault-finding");
    List<Callable<Seen>> runs = new ArrayList<>();
    for (Cause cause : FaultDraw.causes()) {
      boolean sound = cause == Cause.HEALTHY;
      for (Severity severity : sound ? List.of(Severity.CLEAR) : List.of(Severity.values())) {
        for (int seed = 0; seed < (sound ? SOUND_SEEDS : SEEDS); seed++) {
          boolean tuning = seed < (sound ? SOUND_TUNING : TUNING);
          long drawn =
              seed
                  + (tuning ? 0 : HELD_OUT)
                  + 10_000L * List.of(Severity.values()).indexOf(severity);
          runs.add(() -> seen(cause, severity, tuning, units.judge(cause, severity, drawn)));
        }
      }
    }
    List<Seen> all = Work.all("confusion", runs);
    Map<Cause, Map<Sign, Likelihoods.Count>> counts = counts(all);
    Path folder = Files.createDirectories(Path.of("target/confusion"));
    Files.writeString(folder.resolve("likelihoods.csv"), csv(counts));
    String table = table(all, Likelihoods.of(counts));
    Files.writeString(folder.resolve("confusion.md"), table);
    System.out.println(table);
  }

  private static Seen seen(Cause cause, Severity severity, boolean tuning, JudgedRun run) {
    return new Seen(cause, severity, tuning, run.passed(), Diagnosis.signs(run));
  }

  private static List<Ranked> ranked(Seen unit, Likelihoods likelihoods) {
    return Diagnosis.ranked(unit.evidence(), unit.passed(), likelihoods);
  }

  private static Map<Cause, Map<Sign, Likelihoods.Count>> counts(List<Seen> all) {
    Map<Cause, Map<Sign, Likelihoods.Count>> counts = new EnumMap<>(Cause.class);
    for (Seen unit : all) {
      for (Evidence e : unit.tuning() ? unit.evidence() : List.<Evidence>of()) {
        counts
            .computeIfAbsent(unit.cause(), c -> new EnumMap<>(Sign.class))
            .merge(
                e.sign(),
                new Likelihoods.Count(e.seen() ? 1 : 0, 1),
                (a, b) -> new Likelihoods.Count(a.seen() + b.seen(), a.runs() + b.runs()));
      }
    }
    return counts;
  }

  private static String csv(Map<Cause, Map<Sign, Likelihoods.Count>> counts) {
    StringBuilder text =
        new StringBuilder(
            "# Counted on simulated units by the benchmark \"confusion\"; no real unit is behind"
                + " it.\n# cause,sign,seen,runs that could show it\n");
    counts.forEach(
        (cause, signs) ->
            signs.forEach(
                (sign, count) ->
                    text.append(cause.name() + "," + sign.name())
                        .append("," + count.seen() + "," + count.runs() + "\n")));
    return text.toString();
  }

  private static String table(List<Seen> all, Likelihoods likelihoods) {
    StringBuilder text = new StringBuilder();
    text.append("| cause | clear | moderate | barely | first two | else named |\n");
    text.append("|---|---|---|---|---|---|\n");
    for (Cause cause : FaultDraw.causes()) {
      List<Seen> these = all.stream().filter(s -> s.cause() == cause).toList();
      text.append("| ").append(cause.title());
      for (Severity severity : Severity.values()) {
        List<Seen> graded = these.stream().filter(s -> s.severity() == severity).toList();
        text.append(" | ").append(share(graded, s -> place(s, likelihoods) == 0));
      }
      text.append(" | ").append(share(these, s -> place(s, likelihoods) < 2));
      text.append(" | ").append(others(these, likelihoods)).append(" |\n");
    }
    for (boolean tuning : new boolean[] {true, false}) {
      List<Seen> half = all.stream().filter(s -> s.tuning() == tuning).toList();
      List<Seen> faults = half.stream().filter(s -> s.cause() != Cause.HEALTHY).toList();
      List<Seen> asked = faults.stream().filter(s -> s.severity() != Severity.BARELY).toList();
      List<Seen> barely = faults.stream().filter(s -> s.severity() == Severity.BARELY).toList();
      List<Seen> sound = half.stream().filter(s -> s.cause() == Cause.HEALTHY).toList();
      text.append('\n')
          .append(tuning ? "Counted seeds" : "Held-out seeds")
          .append(": right first, clear and moderate ")
          .append(percent(asked, s -> place(s, likelihoods) == 0))
          .append("; among the first two ")
          .append(percent(asked, s -> place(s, likelihoods) < 2))
          .append("; barely above the limit, first ")
          .append(percent(barely, s -> place(s, likelihoods) == 0))
          .append("; a fault invented for a sound unit ")
          .append(percent(sound, s -> standsOut(s, likelihoods)))
          .append(".\n");
    }
    return text + "\n" + reliability(all, likelihoods);
  }

  /** Of the held-out units: what was said, and how often it was right. */
  private static String reliability(List<Seen> all, Likelihoods likelihoods) {
    StringBuilder text =
        new StringBuilder("| probability stated | units | right |\n|---|---|---|\n");
    double[] edges = {0.0, 0.5, 0.8, 0.95, 0.99, 1.0001};
    for (int i = 0; i + 1 < edges.length; i++) {
      double low = edges[i];
      double high = edges[i + 1];
      List<Seen> these =
          all.stream()
              .filter(s -> !s.tuning() && s.cause() != Cause.HEALTHY)
              .filter(s -> first(s, likelihoods).probability() >= low)
              .filter(s -> first(s, likelihoods).probability() < high)
              .toList();
      String edge = String.format(Locale.ROOT, "%.2f to %.2f", low, Math.min(1.0, high));
      text.append("| ").append(edge).append(" | ").append(these.size()).append(" | ");
      text.append(these.isEmpty() ? "–" : share(these, s -> place(s, likelihoods) == 0));
      text.append(" |\n");
    }
    return text.toString();
  }

  private static Ranked first(Seen unit, Likelihoods likelihoods) {
    return ranked(unit, likelihoods).get(0);
  }

  private static boolean standsOut(Seen unit, Likelihoods likelihoods) {
    return Diagnosis.standsOut(unit.evidence(), ranked(unit, likelihoods));
  }

  /** At which place the right cause comes, from 0; where nothing stands out none is named. */
  private static int place(Seen unit, Likelihoods likelihoods) {
    List<Cause> ranked = ranked(unit, likelihoods).stream().map(Ranked::cause).toList();
    if (!standsOut(unit, likelihoods)) {
      return unit.cause() == Cause.HEALTHY ? 0 : ranked.size();
    }
    return ranked.indexOf(unit.cause());
  }

  private static String others(List<Seen> these, Likelihoods likelihoods) {
    Map<String, Integer> named = new HashMap<>();
    for (Seen unit : these) {
      if (place(unit, likelihoods) > 0) {
        boolean one = standsOut(unit, likelihoods);
        String name = one ? first(unit, likelihoods).cause().title() : "none";
        named.merge(name, 1, Integer::sum);
      }
    }
    return String.join(
        ", ",
        named.entrySet().stream()
            .sorted(Comparator.comparing((Map.Entry<String, Integer> e) -> -e.getValue()))
            .map(e -> e.getKey() + " " + e.getValue())
            .toList());
  }

  private static String share(List<Seen> units, Predicate<Seen> right) {
    return units.isEmpty() ? "–" : units.stream().filter(right).count() + " of " + units.size();
  }

  private static String percent(List<Seen> units, Predicate<Seen> right) {
    double share = 100.0 * units.stream().filter(right).count() / Math.max(1, units.size());
    return String.format(Locale.ROOT, "%.1f %% (%s)", share, share(units, right));
  }
}
