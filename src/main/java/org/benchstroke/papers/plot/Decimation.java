package org.benchstroke.papers.plot;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.TreeSet;
import java.util.stream.IntStream;
import org.benchstroke.core.analysis.Trace;

/**
 * Thins a long trace to what a picture can show without hiding anything that stands out: of each
 * pixel column the first, smallest, largest and last sample stay. Gaps stay gaps. Stateless.
 */
public final class Decimation {
  private Decimation() {}

  /**
   * One sample of a trace.
   *
   * @param seconds its time
   * @param value its value
   * @param saturated whether it stood at the end of its channel's range
   */
  public record Sample(double seconds, double value, boolean saturated) {
    /** Those of a trace, counted from an instant on. */
    public static List<Sample> of(Trace trace, double zeroSeconds) {
      return IntStream.range(0, trace.size())
          .mapToObj(
              i -> new Sample(trace.seconds(i) - zeroSeconds, trace.percent(i), trace.saturated(i)))
          .toList();
    }
  }

  /**
   * Splits a trace wherever two samples lie further apart than a gap.
   *
   * @param samples in the order of time
   * @param gapSeconds the longest distance that is no gap, s
   */
  public static List<List<Sample>> unbroken(List<Sample> samples, double gapSeconds) {
    List<List<Sample>> runs = new ArrayList<>();
    int from = 0;
    for (int i = 1; i <= samples.size(); i++) {
      boolean ends =
          i == samples.size()
              || samples.get(i).seconds() - samples.get(i - 1).seconds() > gapSeconds;
      if (ends) {
        runs.add(List.copyOf(samples.subList(from, i)));
        from = i;
      }
    }
    return runs;
  }

  /**
   * Thins an unbroken run.
   *
   * @param run samples without a gap between them, in the order of time
   * @param columnSeconds the width of a pixel column, s, above 0
   * @return a part of the run, in the order of time
   */
  public static List<Sample> thin(List<Sample> run, double columnSeconds) {
    List<Sample> kept = new ArrayList<>();
    int from = 0;
    for (int i = 1; i <= run.size(); i++) {
      if (i == run.size()
          || column(run.get(i), columnSeconds) != column(run.get(from), columnSeconds)) {
        keep(run, from, i, kept);
        from = i;
      }
    }
    return kept;
  }

  private static long column(Sample sample, double columnSeconds) {
    return (long) Math.floor(sample.seconds() / columnSeconds);
  }

  private static void keep(List<Sample> run, int from, int to, List<Sample> kept) {
    int smallest = from;
    int largest = from;
    for (int i = from; i < to; i++) {
      smallest = run.get(i).value() < run.get(smallest).value() ? i : smallest;
      largest = run.get(i).value() > run.get(largest).value() ? i : largest;
    }
    for (int i : new TreeSet<>(Arrays.asList(from, smallest, largest, to - 1))) {
      kept.add(run.get(i));
    }
  }
}
