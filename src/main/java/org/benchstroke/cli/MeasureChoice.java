package org.benchstroke.cli;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeSet;
import java.util.function.Function;
import java.util.function.Predicate;
import java.util.stream.Collectors;
import org.benchstroke.app.WrongRequest;
import org.benchstroke.archive.ArchiveFault;
import org.benchstroke.archive.ArchivedRun.Heading;
import org.benchstroke.archive.ShopHistory;
import org.benchstroke.archive.ShopHistory.Measured;
import org.benchstroke.unit.MeasureKind;
import picocli.CommandLine.Option;

/** Which measure a statistic is of: one kind, at one place, known by one truth. */
final class MeasureChoice {
  private static final int MOST_LISTED = 12;

  @Option(
      names = "--measure",
      required = true,
      paramLabel = "KEY",
      description = "The measure, by its key in a unit type file: dead_band_pct.")
  private String measure = "";

  @Option(
      names = "--place",
      paramLabel = "ID",
      description =
          "Where it was taken, as in the archive: \"side 50 up\"; an empty text for the whole unit."
              + " Needed where there are several.")
  private Optional<String> place = Optional.empty();

  @Option(
      names = "--truth",
      paramLabel = "TEXT",
      description =
          "By what it was known: feedback, stem, \"bench clock\" or \"bench meter\". Needed where"
              + " there are several.")
  private Optional<String> truth = Optional.empty();

  /**
   * The values that count, in the order of time.
   *
   * @param kind the measure
   * @param place where; empty for the whole unit
   * @param truth by what it was known
   * @param values those that count
   * @param leftOut how many do not, by why
   */
  record Series(
      MeasureKind kind,
      String place,
      String truth,
      List<Measured> values,
      Map<String, Long> leftOut) {
    Series {
      values = List.copyOf(values);
      leftOut = Map.copyOf(leftOut);
    }

    double[] numbers() {
      return values.stream().mapToDouble(v -> v.measure().value().orElseThrow()).toArray();
    }

    /** "dead band, point 50, by feedback". */
    String title() {
      return kind.title() + (place.isEmpty() ? "" : ", " + place) + ", by " + truth;
    }

    /** Its values' name and unit, for an axis. */
    String quantity() {
      return kind.title() + ", " + kind.unit();
    }

    /** What does not count, in a sentence; empty if nothing is left out. */
    Optional<String> leftOutWords() {
      List<String> all =
          leftOut.entrySet().stream()
              .sorted(Map.Entry.comparingByKey())
              .map(e -> e.getValue() + " " + e.getKey())
              .toList();
      return all.isEmpty()
          ? Optional.empty()
          : Optional.of("Left out: " + String.join(", ", all) + ".");
    }

    void put(Map<String, Object> told) {
      told.put("measure", kind.key());
      told.put("place", place);
      told.put("truth", truth);
      told.put("unit", kind.unit());
      told.put("left_out", new LinkedHashMap<>(leftOut));
    }
  }

  /** The measure that is asked for. */
  MeasureKind kind() throws WrongRequest {
    Optional<MeasureKind> kind = MeasureKind.ofKey(measure.strip());
    if (kind.isEmpty()) {
      throw new WrongRequest(
          "--measure: found \""
              + measure
              + "\", allowed is the key of a measure as in a unit type file, such as"
              + " dead_band_pct; all of them stand in docs/reference/unit-type-file.md");
    }
    return kind.get();
  }

  /**
   * Asks for it.
   *
   * @throws WrongRequest if there are several places or truths and none was chosen, or the chosen
   *     one is not there
   */
  Series of(ShopHistory history) throws WrongRequest, ArchiveFault {
    return of(history.measured(kind().key()));
  }

  /** Likewise, of measures of this kind that were found already. */
  Series of(List<Measured> all) throws WrongRequest {
    MeasureKind kind = kind();
    if (all.isEmpty()) {
      throw new WrongRequest(
          "no run that is asked for has the measure " + kind.key() + "; ask for others");
    }
    List<Measured> there = one("--place", place, all, m -> m.measure().place());
    List<Measured> known = one("--truth", truth, there, m -> m.measure().truth());
    Map<String, Long> leftOut = new LinkedHashMap<>();
    List<Measured> counted =
        without(known, leftOut, "of runs that are not whole", MeasureChoice::broken);
    counted = without(counted, leftOut, "of damaged or changed records", MeasureChoice::flawed);
    counted = without(counted, leftOut, "without a value", m -> m.measure().value().isEmpty());
    return new Series(
        kind, known.get(0).measure().place(), known.get(0).measure().truth(), counted, leftOut);
  }

  private static boolean broken(Measured m) {
    return !m.run().result().whole();
  }

  private static boolean flawed(Measured m) {
    Heading run = m.run();
    return run.file().flaws() > 0;
  }

  private static List<Measured> without(
      List<Measured> all, Map<String, Long> leftOut, String why, Predicate<Measured> out) {
    List<Measured> in = new ArrayList<>(all);
    in.removeIf(out);
    if (in.size() < all.size()) {
      leftOut.put(why, (long) all.size() - in.size());
    }
    return in;
  }

  private static List<Measured> one(
      String option,
      Optional<String> wanted,
      List<Measured> all,
      Function<Measured, String> property)
      throws WrongRequest {
    TreeSet<String> found =
        all.stream().map(property).collect(Collectors.toCollection(TreeSet::new));
    String one = wanted.map(String::strip).orElse(found.first());
    if (wanted.isEmpty() ? found.size() > 1 : !found.contains(one)) {
      String listed =
          found.stream()
              .limit(MOST_LISTED)
              .map(f -> "\"" + f + "\"")
              .collect(Collectors.joining(", "));
      String more = found.size() > MOST_LISTED ? " and others" : "";
      throw new WrongRequest(
          option
              + ": found "
              + wanted.map(w -> "\"" + w + "\"").orElse("nothing")
              + ", in these runs there are "
              + listed
              + more
              + "; name one of them");
    }
    return all.stream().filter(m -> property.apply(m).equals(one)).toList();
  }
}
