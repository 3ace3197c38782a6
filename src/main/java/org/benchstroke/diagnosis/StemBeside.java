package org.benchstroke.diagnosis;

import java.util.List;
import java.util.stream.IntStream;
import org.benchstroke.verdict.Measure;

/**
 * How the stem stands beside the feedback, in % of travel.
 *
 * @param mean stem − feedback, mean of the points within the travel
 * @param lag coming down less going up, mean of the points within the travel
 * @param seat at closed, less the mean of the others coming down
 * @param bend below mid travel less above it
 * @param half U of a difference
 */
record StemBeside(double mean, double lag, double seat, double bend, double half) {
  static StemBeside of(List<Measure> feedback, List<Measure> stem) {
    double[] d =
        IntStream.range(0, stem.size())
            .mapToDouble(i -> Offset.value(stem.get(i)) - Offset.value(feedback.get(i)))
            .toArray();
    return of(stem, d, half(feedback, stem));
  }

  /** The stem by itself: how it stands beside its setpoints. */
  static StemBeside setpoints(List<Measure> stem) {
    return of(stem, stem.stream().mapToDouble(Offset::value).toArray(), half(stem, stem));
  }

  private static StemBeside of(List<Measure> stem, double[] d, double half) {
    double up = mean(stem, d, " up", 1, 99);
    double down = mean(stem, d, " down", 1, 99);
    double bend = mean(stem, d, "", 1, 49) - mean(stem, d, "", 51, 99);
    double seat = mean(stem, d, " down", 0, 0) - down;
    return new StemBeside((up + down) / 2.0, down - up, seat, bend, half);
  }

  private static double half(List<Measure> feedback, List<Measure> stem) {
    return IntStream.range(0, stem.size())
        .mapToDouble(i -> Math.hypot(Signs.half(stem.get(i)), Signs.half(feedback.get(i))))
        .max()
        .orElse(0.0);
  }

  /** Of nothing it is 0: no difference. */
  private static double mean(List<Measure> stem, double[] d, String way, double from, double to) {
    return IntStream.range(0, d.length)
        .filter(i -> stem.get(i).place().endsWith(way))
        .filter(i -> Offset.at(stem.get(i)) >= from && Offset.at(stem.get(i)) <= to)
        .mapToDouble(i -> d[i])
        .average()
        .orElse(0.0);
  }
}
