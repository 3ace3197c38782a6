package org.benchstroke.app.history;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.function.Function;
import java.util.function.Predicate;
import java.util.stream.Collectors;
import org.benchstroke.app.WrongRequest;
import org.benchstroke.archive.ArchiveFault;
import org.benchstroke.archive.ShopHistory;
import org.benchstroke.archive.ShopHistory.Measured;
import org.benchstroke.unit.MeasureKind;

/**
 * Which measure a statistic is of: one kind, at one place, known by one truth. Immutable.
 *
 * @param measure key of the measure, as it was typed
 * @param place where, as in the archive: needed where there are several
 * @param truth by what it was known: likewise
 * @param naming how these three are called where they are asked for
 */
public record MeasureChoice(
    String measure, Optional<String> place, Optional<String> truth, Naming naming) {
  private static final int MOST_LISTED = 12;

  /**
   * A place and a truth, which are one series.
   *
   * @param place where; empty for the whole unit
   * @param truth by what it was known
   */
  public record At(String place, String truth) {}

  /** The series that these values are of, with how many each has, by place and truth. */
  public static Map<At, Long> series(List<Measured> all) {
    return all.stream()
        .collect(
            Collectors.groupingBy(
                m -> new At(m.measure().place(), m.measure().truth()),
                () ->
                    new TreeMap<>(
                        (a, b) ->
                            a.place().equals(b.place())
                                ? a.truth().compareTo(b.truth())
                                : a.place().compareTo(b.place())),
                Collectors.counting()));
  }

  /**
   * The measure that is asked for.
   *
   * @throws WrongRequest if there is no such measure
   */
  public MeasureKind kind() throws WrongRequest {
    Optional<MeasureKind> kind = MeasureKind.ofKey(measure.strip());
    if (kind.isEmpty()) {
      throw new WrongRequest(
          naming.of("measure")
              + ": found \""
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
  public Series of(ShopHistory history) throws WrongRequest, ArchiveFault {
    return of(history.measured(kind().key()));
  }

  /** Likewise, of measures of this kind that were found already. */
  public Series of(List<Measured> all) throws WrongRequest {
    MeasureKind kind = kind();
    if (all.isEmpty()) {
      throw new WrongRequest(
          "no run that is asked for has the measure " + kind.key() + "; ask for others");
    }
    List<Measured> there = one("place", place, all, m -> m.measure().place());
    List<Measured> known = one("truth", truth, there, m -> m.measure().truth());
    Map<String, Long> leftOut = new LinkedHashMap<>();
    List<Measured> counted =
        without(known, leftOut, "of runs that are not whole", m -> !m.run().result().whole());
    counted =
        without(counted, leftOut, "of damaged or changed records", m -> m.run().file().flaws() > 0);
    counted = without(counted, leftOut, "without a value", m -> m.measure().value().isEmpty());
    return new Series(
        kind, known.get(0).measure().place(), known.get(0).measure().truth(), counted, leftOut);
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

  private List<Measured> one(
      String field,
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
          naming.of(field)
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
