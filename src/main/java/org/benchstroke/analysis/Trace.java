package org.benchstroke.analysis;

import java.util.List;
import java.util.function.ToDoubleFunction;

/**
 * A position over time: samples in the order of their stamps. Immutable.
 *
 * @param samples the samples
 */
public record Trace(List<Sample> samples) {
  /**
   * One sample.
   *
   * @param seconds its stamp, the middle of its transaction, s
   * @param stampHalfSeconds half the transaction's length: the stamp is right within ± this, s
   * @param percent the position, % of travel
   * @param saturated whether it was at or beyond the end of the channel's range
   */
  public record Sample(
      double seconds, double stampHalfSeconds, double percent, boolean saturated) {}

  public Trace {
    samples = List.copyOf(samples);
  }

  public int size() {
    return samples.size();
  }

  public boolean isEmpty() {
    return samples.isEmpty();
  }

  public Sample get(int index) {
    return samples.get(index);
  }

  /** The samples whose stamps lie in the closed interval. */
  public Trace between(double fromSeconds, double toSeconds) {
    return new Trace(
        samples.stream()
            .filter(s -> s.seconds() >= fromSeconds && s.seconds() <= toSeconds)
            .toList());
  }

  /** The last samples, at most {@code count}. */
  public Trace last(int count) {
    return new Trace(samples.subList(Math.max(0, size() - count), size()));
  }

  /** The first samples, at most {@code count}. */
  public Trace first(int count) {
    return new Trace(samples.subList(0, Math.min(count, size())));
  }

  /** Mean and deviation of the positions; the trace must not be empty. */
  public Spread spread() {
    return Spread.of(values(Sample::percent));
  }

  private double[] values(ToDoubleFunction<Sample> of) {
    return samples.stream().mapToDouble(of).toArray();
  }
}
