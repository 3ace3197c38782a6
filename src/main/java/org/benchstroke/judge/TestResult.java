package org.benchstroke.judge;

import java.util.List;
import java.util.Optional;
import java.util.function.Predicate;

/**
 * What one test of the procedure gives.
 *
 * @param measures its measures, with the reason for each that is missing
 * @param orders what was ordered without a number, and what was seen
 * @param travel its readings at rest, if it is a travel error test
 * @param notes what is told and not judged, a sentence each
 * @param traces what its measures were taken from
 */
record TestResult(
    List<Measure> measures,
    List<AsOrdered> orders,
    Optional<TravelTest> travel,
    List<String> notes,
    List<TestTrace> traces) {
  TestResult(List<Measure> measures, List<AsOrdered> orders, Optional<TravelTest> travel) {
    this(measures, orders, travel, List.of());
  }

  TestResult(
      List<Measure> measures,
      List<AsOrdered> orders,
      Optional<TravelTest> travel,
      List<String> notes) {
    this(measures, orders, travel, notes, List.of());
  }

  TestResult {
    measures = List.copyOf(measures);
    orders = List.copyOf(orders);
    notes = List.copyOf(notes);
    traces = List.copyOf(traces);
  }

  /** The same with what it was taken from. */
  TestResult from(List<? extends TestTrace> seen) {
    return new TestResult(measures, orders, travel, notes, List.copyOf(seen));
  }

  /**
   * The same where a file holds more of its kind than was judged: what was seen still fails it, but
   * what wasn't may not be passed over.
   *
   * @param passes whether a measure would pass, with or without a condition
   */
  TestResult withMore(String more, Predicate<Measure> passes) {
    return new TestResult(
        measures.stream()
            .map(
                m ->
                    passes.test(m)
                        ? Measures.none(m.kind(), m.place(), m.truth(), m.method(), more)
                        : m)
            .toList(),
        orders.stream().map(o -> o.word() == Word.PASS ? o.withMore(more) : o).toList(),
        travel,
        notes,
        traces);
  }

  static TestResult nothing() {
    return new TestResult(List.of(), List.of(), Optional.empty());
  }

  static TestResult measures(List<Measure> measures) {
    return new TestResult(measures, List.of(), Optional.empty());
  }

  static TestResult orders(List<AsOrdered> orders) {
    return new TestResult(List.of(), orders, Optional.empty());
  }
}
