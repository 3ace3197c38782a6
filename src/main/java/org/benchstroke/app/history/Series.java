package org.benchstroke.app.history;

import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.benchstroke.archive.ArchiveFault;
import org.benchstroke.archive.ShopHistory;
import org.benchstroke.archive.ShopHistory.Measured;
import org.benchstroke.unit.MeasureKind;

/**
 * The values of a measure that count, in the order of time. Immutable.
 *
 * @param kind the measure
 * @param place where; empty for the whole unit
 * @param truth by what it was known
 * @param values those that count
 * @param leftOut how many do not, by why
 */
public record Series(
    MeasureKind kind,
    String place,
    String truth,
    List<Measured> values,
    Map<String, Long> leftOut) {
  public Series {
    values = List.copyOf(values);
    leftOut = Map.copyOf(leftOut);
  }

  /** The values, in the measure's unit. */
  public double[] numbers() {
    return values.stream().mapToDouble(v -> v.measure().value().orElseThrow()).toArray();
  }

  /** "dead band, point 50, by feedback". */
  public String title() {
    return kind.title() + (place.isEmpty() ? "" : ", " + place) + ", by " + truth;
  }

  /** Its values' name and unit, for an axis. */
  public String quantity() {
    return kind.title() + ", " + kind.unit();
  }

  /** What does not count, in a sentence; empty if nothing is left out. */
  public Optional<String> leftOutWords() {
    List<String> all =
        leftOut.entrySet().stream()
            .sorted(Map.Entry.comparingByKey())
            .map(e -> e.getValue() + " " + e.getKey())
            .toList();
    return all.isEmpty()
        ? Optional.empty()
        : Optional.of("Left out: " + String.join(", ", all) + ".");
  }

  /** For programs. */
  public void put(Map<String, Object> told) {
    told.put("measure", kind.key());
    told.put("place", place);
    told.put("truth", truth);
    told.put("unit", kind.unit());
    told.put("left_out", new LinkedHashMap<>(leftOut));
  }

  /** Only of the first whole run of each job: one value a unit. */
  public Series asFound(ShopHistory history) throws ArchiveFault {
    Set<String> first = new HashSet<>();
    history.asFound().forEach(run -> first.add(run.file().sha256()));
    List<Measured> kept =
        values.stream().filter(v -> first.contains(v.run().file().sha256())).toList();
    Map<String, Long> out = new LinkedHashMap<>(leftOut);
    if (kept.size() < values.size()) {
      out.put("not as found", (long) values.size() - kept.size());
    }
    return new Series(kind, place, truth, kept, out);
  }
}
