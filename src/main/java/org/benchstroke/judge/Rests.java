package org.benchstroke.judge;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.IntStream;
import org.benchstroke.core.analysis.Creep;
import org.benchstroke.core.analysis.Direction;
import org.benchstroke.core.analysis.RestNoise;
import org.benchstroke.core.analysis.StraightLine;
import org.benchstroke.core.analysis.Trace;
import org.benchstroke.core.analysis.TraceGuards;
import org.benchstroke.record.Event;
import org.benchstroke.record.RunRecord;

/** The windows in which a record found the unit at rest. Stateless. */
public final class Rests {
  private Rests() {}

  /** How neighbouring readings go together in all rests of a run, by each truth. */
  static Map<Truth, RestNoise> noises(Samples samples, RunRecord record) {
    Lines lines = Lines.of(record);
    List<Event.Rested> rests =
        record.events(Event.Rested.class).filter(Event.Rested::settled).toList();
    Map<Truth, RestNoise> noises = new EnumMap<>(Truth.class);
    noises.put(Truth.FEEDBACK, RestNoise.of(windows(samples, samples.position(lines), rests)));
    noises.put(Truth.STEM, RestNoise.of(windows(samples, samples.stem(lines), rests)));
    return noises;
  }

  /**
   * The same of the feedback without what a slow motion adds: one that hunts moves within its
   * rests, far more slowly than its noise goes to and fro, and a line is all that a rest holds of
   * that.
   */
  public static RestNoise besideMotion(Samples samples, RunRecord record) {
    List<Event.Rested> rests =
        record.events(Event.Rested.class).filter(Event.Rested::settled).toList();
    return RestNoise.of(
        windows(samples, samples.position(Lines.of(record)), rests).stream()
            .filter(window -> window.length > 2)
            .map(Rests::withoutLine)
            .toList());
  }

  /** What a line through it leaves, with the scatter of as many readings that are free. */
  private static double[] withoutLine(double[] window) {
    double[] x = IntStream.range(0, window.length).asDoubleStream().toArray();
    StraightLine line = StraightLine.fit(x, window);
    double free = Math.sqrt((window.length - 1.0) / (window.length - 2.0));
    return IntStream.range(0, window.length)
        .mapToDouble(i -> free * (window[i] - line.at(x[i])))
        .toArray();
  }

  private static List<double[]> windows(Samples samples, Trace trace, List<Event.Rested> rests) {
    List<double[]> windows = new ArrayList<>();
    for (Event.Rested rest : rests) {
      Trace window = window(trace, rest);
      boolean whole =
          TraceGuards.gap(window, samples.longestPauseSeconds()).isEmpty()
              && TraceGuards.saturated(window).isEmpty();
      if (whole) {
        windows.add(window.samples().stream().mapToDouble(Trace.Sample::percent).toArray());
      }
    }
    return windows;
  }

  /**
   * How far the position may still go after it was read, by the side of the approach, %.
   *
   * @param stemStep the step of the stem's reading, %
   */
  static Map<Truth, Map<Direction, Double>> creeps(
      Samples samples, RunRecord record, double stemStep) {
    Map<Truth, Map<Direction, Double>> creeps = new EnumMap<>(Truth.class);
    Trace feedback = samples.position(Lines.of(record));
    Trace stem = samples.stem(Lines.of(record));
    creeps.put(Truth.FEEDBACK, creep(samples, feedback, record, samples.resolutionPercent()));
    creeps.put(Truth.STEM, creep(samples, stem, record, stemStep));
    return creeps;
  }

  private static Map<Direction, Double> creep(
      Samples samples, Trace trace, RunRecord record, double resolution) {
    Map<Direction, Double> beyond = new EnumMap<>(Direction.class);
    for (Direction direction : Direction.values()) {
      List<Trace> windows =
          record
              .events(Event.Rested.class)
              .filter(r -> r.settled() && r.clean() && r.direction().equals(direction.text()))
              .map(r -> window(trace, r))
              .filter(w -> TraceGuards.gap(w, samples.longestPauseSeconds()).isEmpty())
              .filter(w -> TraceGuards.saturated(w).isEmpty())
              .toList();
      beyond.put(direction, Creep.beyondPercent(windows, resolution));
    }
    return beyond;
  }

  static Trace window(Trace trace, Event.Rested rest) {
    return trace.between(Samples.seconds(rest.fromNanos()), Samples.seconds(rest.toNanos()));
  }

  /** The window of the last rest that was found; without one the last so many samples. */
  static Trace last(Trace trace, List<Event.Rested> rests, int otherwise) {
    Optional<Event.Rested> rested =
        rests.stream().filter(Event.Rested::settled).reduce((first, last) -> last);
    Trace window = rested.map(r -> window(trace, r)).orElse(Trace.empty());
    return window.size() < 2 ? trace.last(otherwise) : window;
  }
}
