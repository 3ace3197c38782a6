package org.benchstroke.judge;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Predicate;
import org.benchstroke.core.analysis.RestReading;

/**
 * What one test of the procedure gives. Immutable.
 *
 * @param measures its measures, with the reason for each that is missing
 * @param orders what was ordered without a number, and what was seen
 * @param rests its readings at rest, by each truth that it reads; empty if it takes none
 * @param findings what stands out of it
 * @param traces what its measures were taken from
 */
public record TestResult(
    List<Measure> measures,
    List<AsOrdered> orders,
    Optional<Map<Truth, List<RestReading>>> rests,
    List<Finding> findings,
    List<TestTrace> traces) {
  public TestResult {
    measures = List.copyOf(measures);
    orders = List.copyOf(orders);
    rests = rests.map(Map::copyOf);
    findings = List.copyOf(findings);
    traces = List.copyOf(traces);
  }

  /** A test that only moves the unit. */
  public static TestResult nothing() {
    return new TestResult(List.of(), List.of(), Optional.empty(), List.of(), List.of());
  }

  public static TestResult measures(List<Measure> measures) {
    return nothing().and(measures);
  }

  public static TestResult orders(List<AsOrdered> orders) {
    return nothing().andOrders(orders);
  }

  /** The same with these measures. */
  public TestResult and(List<Measure> taken) {
    return new TestResult(taken, orders, rests, findings, traces);
  }

  /** The same with these orders. */
  public TestResult andOrders(List<AsOrdered> seen) {
    return new TestResult(measures, seen, rests, findings, traces);
  }

  /** The same with these readings at rest. */
  public TestResult at(Map<Truth, List<RestReading>> read) {
    return new TestResult(measures, orders, Optional.of(read), findings, traces);
  }

  /** The same with these findings. */
  public TestResult found(List<Finding> found) {
    return new TestResult(measures, orders, rests, found, traces);
  }

  /** The same with what it was taken from. */
  public TestResult from(List<? extends TestTrace> seen) {
    return new TestResult(measures, orders, rests, findings, List.copyOf(seen));
  }

  /** Its readings at rest by one truth. */
  List<RestReading> rests(Truth truth) {
    return rests.map(r -> r.getOrDefault(truth, List.of())).orElse(List.of());
  }

  /**
   * The same where a file holds more of its kind than was judged: what was seen still fails it, but
   * what wasn't may not be passed over.
   *
   * @param passes whether a measure would pass, with or without a condition
   */
  TestResult withMore(String more, Predicate<Measure> passes) {
    List<Measure> fewer =
        measures.stream()
            .map(
                m ->
                    passes.test(m)
                        ? Measures.none(m.kind(), m.place(), m.truth(), m.method(), more)
                        : m)
            .toList();
    return and(fewer)
        .andOrders(orders.stream().map(o -> o.word() == Word.PASS ? o.withMore(more) : o).toList());
  }
}
