package org.benchstroke.core.statistics;

import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;

/**
 * Causes by how often they were seen, the most frequent first; equal counts stand in the order of
 * the causes themselves, whatever the order they came in. Immutable.
 *
 * @param <C> a cause, by its id
 * @param rows one for each cause
 */
public record Pareto<C>(List<Row<C>> rows) {
  /**
   * A cause.
   *
   * @param cause which one
   * @param count how often, at least once
   * @param share of all, 0..1
   * @param cumulative this one and those above it, 0..1; exactly 1 for the last
   */
  public record Row<C>(C cause, int count, double share, double cumulative) {}

  public Pareto {
    rows = List.copyOf(rows);
  }

  /** Counts causes, each of them as often as it was seen; of none there are no rows. */
  public static <C extends Comparable<C>> Pareto<C> of(Collection<C> seen) {
    Map<C, Integer> counts = new TreeMap<>();
    seen.forEach(cause -> counts.merge(cause, 1, Integer::sum));
    List<Map.Entry<C, Integer>> order = new ArrayList<>(counts.entrySet());
    // a stable sort: what is equal stays in the order of the causes
    order.sort(Map.Entry.comparingByValue(Comparator.reverseOrder()));
    List<Row<C>> rows = new ArrayList<>();
    int before = 0;
    for (Map.Entry<C, Integer> each : order) {
      int count = each.getValue();
      before += count;
      double all = seen.size();
      rows.add(new Row<>(each.getKey(), count, count / all, before / all));
    }
    return new Pareto<>(rows);
  }
}
