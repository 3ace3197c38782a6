package org.benchstroke.core.analysis;

import java.util.List;

/**
 * Between which two positions something happened on a unit's way: a switch changed. Immutable.
 *
 * @param low % of travel
 * @param high % of travel, no less than low
 */
public record SwitchCrossing(double low, double high) {
  public SwitchCrossing {
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
  public static SwitchCrossing over(Trace trace, int from, int to) {
    double low = Double.POSITIVE_INFINITY;
    double high = Double.NEGATIVE_INFINITY;
    for (int i = from; i <= to; i++) {
      low = Math.min(low, trace.percent(i));
      high = Math.max(high, trace.percent(i));
    }
    return new SwitchCrossing(low, high);
  }

  /**
   * Several passages of what always happens at the same position: what all of them span. Where they
   * span nothing in common it happens at different ones: what any of them spans.
   *
   * @param passages at least one
   */
  public static SwitchCrossing common(List<SwitchCrossing> passages) {
    double low = passages.stream().mapToDouble(SwitchCrossing::low).max().orElseThrow();
    double high = passages.stream().mapToDouble(SwitchCrossing::high).min().orElseThrow();
    if (low <= high) {
      return new SwitchCrossing(low, high);
    }
    return new SwitchCrossing(
        passages.stream().mapToDouble(SwitchCrossing::low).min().orElseThrow(),
        passages.stream().mapToDouble(SwitchCrossing::high).max().orElseThrow());
  }
}
