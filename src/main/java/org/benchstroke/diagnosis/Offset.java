package org.benchstroke.diagnosis;

import java.util.List;
import org.benchstroke.verdict.Measure;

/** The errors of several points, taken together. */
record Offset(List<Measure> points, double mean, double half) {
  Offset {
    points = List.copyOf(points);
  }

  static Offset of(List<Measure> points) {
    double mean = points.stream().mapToDouble(Offset::value).average().orElse(0.0);
    return new Offset(points, mean, points.stream().mapToDouble(Signs::half).max().orElse(0.0));
  }

  /** Whether all are off alike: none is further from the mean than a third of it. */
  boolean constant(double least) {
    return Math.abs(mean) > least + half
        && points.stream().allMatch(p -> Math.abs(value(p) - mean) < Math.abs(mean) / 3.0);
  }

  /** Whether the errors lie on a line that rises by so much from 0 to 100 %. */
  boolean follows(double rise, double most) {
    double zero =
        points.stream().mapToDouble(p -> value(p) - (rise * at(p)) / 100.0).average().orElse(0.0);
    double allowed = Math.max(most, Math.abs(rise) / 8.0) + half;
    return points.stream()
        .allMatch(p -> Math.abs(value(p) - zero - (rise * at(p)) / 100.0) < allowed);
  }

  static double value(Measure m) {
    return m.value().orElseThrow();
  }

  /** The setpoint, %: a place is written "25 % up". */
  static double at(Measure m) {
    return Double.parseDouble(m.place().substring(0, m.place().indexOf(' ')));
  }
}
