package org.benchstroke.imported;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.core.quantity.Position;
import org.benchstroke.procedure.Procedure;
import org.benchstroke.procedure.TestSpec;
import org.benchstroke.tests.stroke.StrokeTime;
import org.benchstroke.tests.travel.TravelError;

/** The procedure that the setpoints of a file show, where none was given. Stateless. */
final class InferredProcedure {
  private static final int MOST_CYCLES = 10;
  private static final int MOST_STROKES = 100;

  private InferredProcedure() {}

  /**
   * The tests that a trace shows: stroke time, travel error, in this order; empty if neither.
   *
   * @param setpoints of the plateaus in order, each rounded to what it can stand for
   * @param rests how each plateau ended
   * @param placing finds the strokes in them
   */
  static Procedure of(
      String file, List<Double> setpoints, List<RestFinder.Found> rests, TestFinder placing) {
    List<TestSpec> tests = new ArrayList<>();
    int strokes = 0;
    for (int i = 0; i < setpoints.size() && strokes == 0; i++) {
      strokes = Math.min(MOST_STROKES, placing.strokesAt(i));
    }
    if (strokes > 0) {
      tests.add(new StrokeTime(strokes));
    }
    List<Double> points = new ArrayList<>();
    for (int i = 0; i < setpoints.size(); i++) {
      double each = setpoints.get(i);
      if (rests.get(i).settled() && each >= 0.0 && each <= 100.0 && !points.contains(each)) {
        points.add(each);
      }
    }
    points.sort(null);
    if (points.size() > 2 || (points.size() == 2 && strokes == 0)) {
      travel(points, setpoints).ifPresent(tests::add);
    }
    return new Procedure(ProcedureText.name(file), "1", tests);
  }

  private static java.util.Optional<TestSpec> travel(List<Double> points, List<Double> setpoints) {
    Map<String, Integer> visits = new HashMap<>();
    int first = -1;
    for (int i = 1; i < setpoints.size(); i++) {
      int from = points.indexOf(setpoints.get(i - 1));
      int to = points.indexOf(setpoints.get(i));
      if (from >= 0 && to >= 0 && Math.abs(to - from) == 1) {
        first = first < 0 ? i : first;
        visits.merge(to + (to > from ? " up" : " down"), 1, Integer::sum);
      }
    }
    if (first < 0) {
      return java.util.Optional.empty();
    }
    int cycles = visits.values().stream().mapToInt(v -> v).min().orElseThrow();
    return java.util.Optional.of(
        new TravelError(
            points.stream().map(Position::ofPercent).toList(),
            Math.min(cycles, MOST_CYCLES),
            Position.ofPercent(setpoints.get(first - 1)),
            setpoints.get(first) > setpoints.get(first - 1)));
  }

  /** What was judged, in words, for whoever reads the report. */
  static String words(Procedure procedure) {
    return "No procedure was given. Judged was what the file shows: "
        + procedure.tests().stream().map(InferredProcedure::words).collect(Collectors.joining("; "))
        + ".";
  }

  private static String words(TestSpec test) {
    if (test instanceof StrokeTime stroke) {
      return "stroke time, " + stroke.repeats() + " each way";
    }
    if (test instanceof TravelError travel) {
      return "travel error at "
          + travel.points().stream()
              .map(p -> Numbers.exact(p.percent()))
              .collect(Collectors.joining(", "))
          + " %, cycles: "
          + travel.cycles();
    }
    return test.name();
  }
}
