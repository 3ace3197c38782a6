package org.benchstroke.archive;

import java.time.Instant;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
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
 * @param text within the serial number, the order or the tag of the unit, in capitals or not
 */
public record RunFilter(
    Optional<String> serial,
    Optional<String> order,
    Optional<String> unitType,
    Optional<String> verdict,
    Optional<String> operator,
    Optional<String> bench,
    Optional<Instant> since,
    Optional<Instant> until,
    Optional<String> text) {
  /** All of them. */
  public static final RunFilter ALL = between(Optional.empty(), Optional.empty());

  /** Whatever texts they hold. */
  public RunFilter(
      Optional<String> serial,
      Optional<String> order,
      Optional<String> unitType,
      Optional<String> verdict,
      Optional<String> operator,
      Optional<String> bench,
      Optional<Instant> since,
      Optional<Instant> until) {
    this(serial, order, unitType, verdict, operator, bench, since, until, Optional.empty());
  }

  /** The runs of a unit. */
  public static RunFilter ofSerial(String serial) {
    Optional<String> any = Optional.empty();
    Optional<Instant> ever = Optional.empty();
    return new RunFilter(Optional.of(serial), any, any, any, any, any, ever, ever);
  }

  /** The runs of a unit for an order. */
  public static RunFilter ofJob(String order, String serial) {
    Optional<String> any = Optional.empty();
    Optional<Instant> ever = Optional.empty();
    return new RunFilter(Optional.of(serial), Optional.of(order), any, any, any, any, ever, ever);
  }

  /** The runs of a span of time. */
  public static RunFilter between(Instant since, Instant until) {
    return between(Optional.of(since), Optional.of(until));
  }

  private static RunFilter between(Optional<Instant> since, Optional<Instant> until) {
    Optional<String> any = Optional.empty();
    return new RunFilter(any, any, any, any, any, any, since, until);
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
    text.ifPresent(
        s ->
            all.add(
                "(lower(serial) LIKE :text ESCAPE '!' OR lower(order_no) LIKE :text ESCAPE '!'"
                    + " OR lower(tag) LIKE :text ESCAPE '!')"));
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
    text.ifPresent(s -> values.put("text", within(s)));
    return values;
  }

  /** What LIKE takes for a text within another, whatever stands in it. */
  private static String within(String text) {
    return "%" + text.toLowerCase(Locale.ROOT).replaceAll("[!%_]", "!$0") + "%";
  }
}
