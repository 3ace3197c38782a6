package org.benchstroke.core.analysis;

import java.util.List;

/**
 * Between which two positions something happened on a unit's way: a switch changed. Immutable.
 *
 * @param low % of travel
 * @param high % of travel, no less than low
 */
public record Passage(double low, double high) {
  public Passage {
    if (!(low <= high)) {
      throw new IllegalArgumentException("a passage lies between two positions");
    }
  }

  /** Halfway, % of travel. */
  public double middle() {
    return (low + high) / 2.0;
  }

  /** Half of what it spans, %. */
  public double half() {
    return (high - low) / 2.0;
  }

  /** The positions read from one index to another, both inclusive. */
  public static Passage over(Trace trace, int from, int to) {
    double low = Double.POSITIVE_INFINITY;
    double high = Double.NEGATIVE_INFINITY;
    for (int i = from; i <= to; i++) {
      low = Math.min(low, trace.percent(i));
      high = Math.max(high, trace.percent(i));
    }
    return new Passage(low, high);
  }

  /**
   * Several passages of what always happens at the same position: what all of them span. Where they
   * span nothing in common it happens at different ones: what any of them spans.
   *
   * @param passages at least one
   */
  public static Passage common(List<Passage> passages) {
    double low = passages.stream().mapToDouble(Passage::low).max().orElseThrow();
    double high = passages.stream().mapToDouble(Passage::high).min().orElseThrow();
    if (low <= high) {
      return new Passage(low, high);
    }
    return new Passage(
        passages.stream().mapToDouble(Passage::low).min().orElseThrow(),
        passages.stream().mapToDouble(Passage::high).max().orElseThrow());
  }
}
