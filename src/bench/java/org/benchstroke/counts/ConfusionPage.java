package org.benchstroke.counts;

import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.function.Predicate;
import org.benchstroke.aids.diagnosis.Cause;
import org.benchstroke.aids.diagnosis.Causes;
import org.benchstroke.aids.diagnosis.Likelihoods;
import org.benchstroke.aids.diagnosis.RankedCause;
import org.benchstroke.counts.Counted.Seen;
import org.benchstroke.counts.DrawnSets.Lacks;
import org.benchstroke.simulator.practice.FaultDraw;
import org.benchstroke.simulator.practice.Severity;

/** The tables of held-out units, as they stand on the page. */
final class ConfusionPage {
  private static final List<Severity> SIZES =
      List.of(
          Severity.BARELY,
          Severity.MODERATE,
          Severity.CLEAR,
          Severity.ONCE,
          Severity.TWICE,
          Severity.THRICE);

  private final List<Told> all;

  /** What is said of a unit. */
  private record Told(Seen seen, Causes causes) {
    boolean names() {
      return causes.standOut() && !causes.named().isEmpty();
    }

    List<RankedCause> named() {
      return names() ? causes.named().stream().flatMap(List::stream).toList() : List.of();
    }

    boolean hidden(Cause cause) {
      return seen.drawn().faults().stream().anyMatch(f -> f.cause() == cause);
    }

    /** Each that is named is there, or one of those that are not told apart. */
    boolean right() {
      return names()
          && causes.named().stream()
              .allMatch(alike -> alike.stream().anyMatch(r -> hidden(r.cause())));
    }

    boolean every() {
      return right()
          && seen.drawn().faults().stream()
              .allMatch(f -> named().stream().anyMatch(r -> r.cause() == f.cause()));
    }

    boolean warns() {
      return causes.mayNotBeAll();
    }

    boolean sureAndWrong() {
      return named().stream().anyMatch(r -> r.probability() >= 0.9 && !hidden(r.cause()));
    }
  }

  ConfusionPage(List<Seen> units, Likelihoods likelihoods) {
    this.all = units.stream().map(s -> new Told(s, Causes.of(s.showing(), likelihoods))).toList();
  }

  String text() {
    return all.size()
        + " units that were held out, of each cause and size the units that were named right:\n\n"
        + singles()
        + "\n"
        + fewInstruments()
        + "\n"
        + pairs()
        + "\n"
        + sound()
        + "\n"
        + stated();
  }

  /** The ranges that sizes are drawn from. */
  static String ranges() {
    StringBuilder text = new StringBuilder();
    text.append("| fault | what grows | below | barely | moderate | clear | large | to |\n");
    text.append("|---|---|---|---|---|---|---|---|\n");
    for (Cause cause : FaultDraw.causes()) {
      if (cause != Cause.HEALTHY) {
        Map<String, String> ranges = FaultDraw.ranges(cause);
        ranges.forEach((key, edges) -> text.append(row(cause, key, edges)));
        if (ranges.isEmpty()) {
          text.append("| ").append(cause.title()).append(" | – | – | – | – | – | – | – |\n");
        }
      }
    }
    return text.toString();
  }

  private static String row(Cause cause, String key, String edges) {
    return "| " + cause.title() + " | `" + key + "` | " + edges + " |\n";
  }

  private List<Told> with(int faults, Lacks lacks) {
    return all.stream()
        .filter(t -> t.seen().drawn().faults().size() == faults)
        .filter(t -> t.seen().drawn().lacks() == lacks)
        .toList();
  }

  private String singles() {
    List<Told> one = with(1, Lacks.NOTHING);
    StringBuilder text = new StringBuilder();
    text.append(
        "| cause | barely | moderate | clear | largest | twice | three times | else named |\n");
    text.append("|---|---|---|---|---|---|---|---|\n");
    for (Cause cause : FaultDraw.causes()) {
      List<Told> these = one.stream().filter(t -> t.hidden(cause)).toList();
      if (!these.isEmpty()) {
        text.append("| ").append(cause.title());
        for (Severity severity : SIZES) {
          text.append(" | ").append(share(sized(these, severity), Told::right));
        }
        text.append(" | ").append(others(these)).append(" |\n");
      }
    }
    for (Severity severity : SIZES) {
      List<Told> these = sized(one, severity);
      text.append("\n").append(severity.words()).append(": ").append(summary(these)).append(".\n");
    }
    return text.toString();
  }

  private static String summary(List<Told> these) {
    return "right "
        + percent(these, Told::right)
        + ", no cause named "
        + percent(these, t -> !t.names())
        + ", wrong "
        + percent(these, t -> t.names() && !t.right())
        + ", wrong at 90 % or more "
        + percent(these, Told::sureAndWrong);
  }

  private String fewInstruments() {
    List<Told> these = with(1, Lacks.ALL_BUT_FEEDBACK);
    return "Clear, with feedback and switches alone: "
        + summary(these)
        + ": "
        + others(these)
        + ".\n";
  }

  private String pairs() {
    List<Told> two = with(2, Lacks.NOTHING);
    return "| two faults at once | of "
        + two.size()
        + " units |\n|---|---|\n"
        + row("both named", two, Told::every)
        + row(
            "one named, and that it may not be all", two, t -> t.right() && !t.every() && t.warns())
        + row("one named, and nothing warns", two, t -> t.right() && !t.every() && !t.warns())
        + row("one that is there and one that is not", two, ConfusionPage::half)
        + row("none that is there", two, t -> t.names() && !t.right() && !half(t))
        + row("no cause named", two, t -> !t.names())
        + row("one that is not there at 90 % or more", two, Told::sureAndWrong)
        + "\nWrongly named with two at once: "
        + others(two.stream().filter(t -> t.names() && !t.right()).toList())
        + ".\n";
  }

  private static boolean half(Told t) {
    return t.names() && !t.right() && t.named().stream().anyMatch(r -> t.hidden(r.cause()));
  }

  private static String row(String what, List<Told> of, Predicate<Told> which) {
    return "| " + what + " | " + percent(of, which) + " |\n";
  }

  private String sound() {
    List<Told> sound = with(0, Lacks.NOTHING);
    return "A fault invented for a sound unit: "
        + percent(sound, Told::names)
        + (sound.stream().anyMatch(Told::names) ? ": " + others(sound) : "")
        + ".\n";
  }

  /** What was said of each cause that is named, and how often it was there. */
  private String stated() {
    StringBuilder text =
        new StringBuilder("| probability stated | causes named | there |\n|---|---|---|\n");
    double[] edges = {0.0, 0.3, 0.5, 0.8, 0.9, 0.99, 1.0001};
    for (int i = 0; i + 1 < edges.length; i++) {
      int named = 0;
      int there = 0;
      for (Told t : all) {
        for (RankedCause r : t.named()) {
          if (r.probability() >= edges[i] && r.probability() < edges[i + 1]) {
            named++;
            there += t.hidden(r.cause()) ? 1 : 0;
          }
        }
      }
      String edge =
          String.format(Locale.ROOT, "%.2f to %.2f", edges[i], Math.min(1.0, edges[i + 1]));
      text.append("| ").append(edge).append(" | ").append(named).append(" | ");
      text.append(
          String.format(Locale.ROOT, "%.1f %% (%d)", 100.0 * there / Math.max(1, named), there));
      text.append(" |\n");
    }
    return text.toString();
  }

  private static List<Told> sized(List<Told> these, Severity severity) {
    return these.stream()
        .filter(t -> t.seen().drawn().faults().get(0).severity() == severity)
        .toList();
  }

  private static String others(List<Told> these) {
    Map<String, Integer> named = new HashMap<>();
    for (Told unit : these) {
      if (!unit.right()) {
        if (!unit.names()) {
          named.merge("none", 1, Integer::sum);
        }
        unit.named().stream()
            .filter(r -> !unit.hidden(r.cause()))
            .forEach(r -> named.merge(r.cause().title(), 1, Integer::sum));
      }
    }
    return String.join(
        ", ",
        named.entrySet().stream()
            .sorted(Comparator.comparing((Map.Entry<String, Integer> e) -> -e.getValue()))
            .map(e -> e.getKey() + " " + e.getValue())
            .toList());
  }

  private static String share(List<Told> units, Predicate<Told> right) {
    return units.isEmpty() ? "–" : units.stream().filter(right).count() + " of " + units.size();
  }

  private static String percent(List<Told> units, Predicate<Told> right) {
    double share = 100.0 * units.stream().filter(right).count() / Math.max(1, units.size());
    return String.format(Locale.ROOT, "%.1f %% (%s)", share, share(units, right));
  }
}
