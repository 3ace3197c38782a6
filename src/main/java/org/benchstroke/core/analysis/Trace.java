package org.benchstroke.core.analysis;

import java.util.AbstractList;
import java.util.Arrays;
import java.util.Collections;
import java.util.List;
import org.benchstroke.core.quantity.Numbers;

/**
 * A position over time: samples in the order of their stamps. Immutable; its parts share its
 * memory, so that a cut costs nothing. 25 bytes a sample.
 */
public final class Trace {
  private static final Trace EMPTY = builder(0).build();

  private final double[] seconds;
  private final double[] stampHalfSeconds;
  private final double[] percent;
  private final boolean[] saturated;
  private final int from;
  private final int size;

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

  /**
   * Of these samples.
   *
   * @throws IllegalArgumentException if a stamp is earlier than the one before it, or no number
   */
  public Trace(List<Sample> samples) {
    this(filled(samples), 0, samples.size());
  }

  private Trace(Builder filled, int from, int size) {
    this(filled.seconds, filled.stampHalfSeconds, filled.percent, filled.saturated, from, size);
  }

  private Trace(
      double[] seconds,
      double[] stampHalfSeconds,
      double[] percent,
      boolean[] saturated,
      int from,
      int size) {
    this.seconds = seconds;
    this.stampHalfSeconds = stampHalfSeconds;
    this.percent = percent;
    this.saturated = saturated;
    this.from = from;
    this.size = size;
  }

  private static Builder filled(List<Sample> samples) {
    Builder builder = builder(samples.size());
    for (Sample s : samples) {
      builder.add(s.seconds(), s.stampHalfSeconds(), s.percent(), s.saturated());
    }
    return builder;
  }

  /** A trace of no samples. */
  public static Trace empty() {
    return EMPTY;
  }

  /** Takes samples one by one; {@code expected} is a guess of how many. */
  public static Builder builder(int expected) {
    return new Builder(expected);
  }

  /** Collects the samples of a trace. One thread. */
  public static final class Builder {
    private double[] seconds;
    private double[] stampHalfSeconds;
    private double[] percent;
    private boolean[] saturated;
    private int size;

    private Builder(int expected) {
      int capacity = Math.max(1, expected);
      this.seconds = new double[capacity];
      this.stampHalfSeconds = new double[capacity];
      this.percent = new double[capacity];
      this.saturated = new boolean[capacity];
    }

    /**
     * Adds a sample; what each value means says {@link Sample}.
     *
     * <p>A position that is no number counts as beyond the end of the range.
     *
     * @throws IllegalArgumentException if its stamp is earlier than the one before, or no number
     */
    public Builder add(double at, double halfSeconds, double value, boolean beyond) {
      if (!Double.isFinite(at) || (size > 0 && at < seconds[size - 1])) {
        throw new IllegalArgumentException(
            "the stamps of a trace must rise: "
                + Numbers.plain(at)
                + " s follows "
                + (size > 0 ? Numbers.plain(seconds[size - 1]) + " s" : "nothing"));
      }
      if (size == seconds.length) {
        grow();
      }
      seconds[size] = at;
      stampHalfSeconds[size] = halfSeconds;
      percent[size] = value;
      saturated[size] = beyond || !Double.isFinite(value);
      size++;
      return this;
    }

    private void grow() {
      int capacity = Math.max(16, size + (size >> 1));
      seconds = Arrays.copyOf(seconds, capacity);
      stampHalfSeconds = Arrays.copyOf(stampHalfSeconds, capacity);
      percent = Arrays.copyOf(percent, capacity);
      saturated = Arrays.copyOf(saturated, capacity);
    }

    /** The trace; the builder is empty afterwards. */
    public Trace build() {
      Trace trace = new Trace(this, 0, size);
      seconds = new double[1];
      stampHalfSeconds = new double[1];
      percent = new double[1];
      saturated = new boolean[1];
      size = 0;
      return trace;
    }
  }

  public int size() {
    return size;
  }

  public boolean isEmpty() {
    return size == 0;
  }

  /** A sample's stamp, s. */
  public double seconds(int index) {
    return seconds[at(index)];
  }

  /** Half the length of a sample's transaction, s. */
  public double stampHalfSeconds(int index) {
    return stampHalfSeconds[at(index)];
  }

  /** A sample's position, % of travel. */
  public double percent(int index) {
    return percent[at(index)];
  }

  /** Whether a sample was at or beyond the end of its channel's range. */
  public boolean saturated(int index) {
    return saturated[at(index)];
  }

  public Sample get(int index) {
    return new Sample(seconds(index), stampHalfSeconds(index), percent(index), saturated(index));
  }

  /** The samples as a list that makes each when it is asked for. */
  public List<Sample> samples() {
    return Collections.unmodifiableList(new SampleList(this));
  }

  private static final class SampleList extends AbstractList<Sample> {
    private final Trace trace;

    SampleList(Trace trace) {
      this.trace = trace;
    }

    @Override
    public Sample get(int index) {
      return trace.get(index);
    }

    @Override
    public int size() {
      return trace.size();
    }
  }

  /** The samples from one index, inclusive, to another, exclusive. */
  public Trace slice(int fromIndex, int toIndex) {
    if (fromIndex < 0 || toIndex > size || fromIndex > toIndex) {
      throw new IndexOutOfBoundsException(
          "samples " + fromIndex + " to " + toIndex + " of " + size);
    }
    return new Trace(
        seconds, stampHalfSeconds, percent, saturated, from + fromIndex, toIndex - fromIndex);
  }

  /** The index of the first sample stamped at this instant or later; the size if there is none. */
  public int indexAt(double instantSeconds) {
    int low = 0;
    int high = size;
    while (low < high) {
      int middle = (low + high) >>> 1;
      if (seconds[from + middle] < instantSeconds) {
        low = middle + 1;
      } else {
        high = middle;
      }
    }
    return low;
  }

  /** The samples whose stamps lie in the closed interval. */
  public Trace between(double fromSeconds, double toSeconds) {
    int first = indexAt(fromSeconds);
    int end = indexAt(Math.nextUp(toSeconds));
    return slice(first, Math.max(first, end));
  }

  /** The last samples, at most {@code count}. */
  public Trace last(int count) {
    return slice(Math.max(0, size - count), size);
  }

  /** The first samples, at most {@code count}. */
  public Trace first(int count) {
    return slice(0, Math.min(count, size));
  }

  /** The mean position of the samples from one index, inclusive, to another, exclusive, %. */
  double mean(int fromIndex, int toIndex) {
    return Spread.mean(percent, from + fromIndex, toIndex - fromIndex);
  }

  /** Mean and deviation of the positions; the trace must not be empty. */
  public Spread spread() {
    return Spread.of(percent, from, size);
  }

  private int at(int index) {
    if (index < 0 || index >= size) {
      throw new IndexOutOfBoundsException("sample " + index + " of " + size);
    }
    return from + index;
  }
}
