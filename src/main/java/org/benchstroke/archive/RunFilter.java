package org.benchstroke.archive;

import java.time.Instant;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * Which runs are asked for: those that are all of this. Texts are compared as they are, whatever
 * stands in them. Immutable.
 *
 * @param serial serial number of the unit
 * @param order the customer's order
 * @param unitType the unit type's name
 * @param verdict the word, as {@link org.benchstroke.judge.Word#text}
 * @param operator who ran it
 * @param bench the bench's name
 * @param since begun then or later
 * @param until begun before
 */
public record RunFilter(
    Optional<String> serial,
    Optional<String> order,
    Optional<String> unitType,
    Optional<String> verdict,
    Optional<String> operator,
    Optional<String> bench,
    Optional<Instant> since,
    Optional<Instant> until) {
  /** All of them. */
  public static final RunFilter ALL =
      new RunFilter(
          Optional.empty(),
          Optional.empty(),
          Optional.empty(),
          Optional.empty(),
          Optional.empty(),
          Optional.empty(),
          Optional.empty(),
          Optional.empty());

  /** The runs of a unit. */
  public static RunFilter ofSerial(String serial) {
    return new RunFilter(
        Optional.of(serial),
        Optional.empty(),
        Optional.empty(),
        Optional.empty(),
        Optional.empty(),
        Optional.empty(),
        Optional.empty(),
        Optional.empty());
  }

  /** The runs of a span of time. */
  public static RunFilter between(Instant since, Instant until) {
    return new RunFilter(
        Optional.empty(),
        Optional.empty(),
        Optional.empty(),
        Optional.empty(),
        Optional.empty(),
        Optional.empty(),
        Optional.of(since),
        Optional.of(until));
  }

  /** What to write behind WHERE. */
  String condition() {
    List<String> all = new ArrayList<>(List.of("1 = 1"));
    serial.ifPresent(s -> all.add("id IN (SELECT id FROM attempt WHERE serial = :serial)"));
    order.ifPresent(s -> all.add("id IN (SELECT id FROM attempt WHERE order_no = :order)"));
    unitType.ifPresent(s -> all.add("unit_type = :type"));
    verdict.ifPresent(s -> all.add("verdict = :verdict"));
    operator.ifPresent(s -> all.add("operator = :operator"));
    bench.ifPresent(s -> all.add("bench = :bench"));
    since.ifPresent(s -> all.add("id >= :since"));
    until.ifPresent(s -> all.add("id < :until"));
    return String.join(" AND ", all);
  }

  /**
   * The same span of time for a table whose rows belong to runs, so that no other month of it is
   * looked at.
   *
   * @param column the one with the number of the run
   */
  String span(String column) {
    return since.map(s -> " AND " + column + " >= :since").orElse("")
        + until.map(u -> " AND " + column + " < :until").orElse("");
  }

  /** What the names in it stand for. */
  Map<String, Object> values() {
    Map<String, Object> values = new LinkedHashMap<>();
    serial.ifPresent(s -> values.put("serial", s));
    order.ifPresent(s -> values.put("order", s));
    unitType.ifPresent(s -> values.put("type", s));
    verdict.ifPresent(s -> values.put("verdict", s));
    operator.ifPresent(s -> values.put("operator", s));
    bench.ifPresent(s -> values.put("bench", s));
    since.ifPresent(s -> values.put("since", RunId.first(s)));
    until.ifPresent(s -> values.put("until", RunId.first(s)));
    return values;
  }
}
