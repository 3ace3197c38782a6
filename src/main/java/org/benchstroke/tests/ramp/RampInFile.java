package org.benchstroke.tests.ramp;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.IntPredicate;
import java.util.stream.IntStream;
import org.benchstroke.imported.Plateaus;
import org.benchstroke.imported.Stretch;
import org.benchstroke.imported.TraceFinder;

/** Finds a ramp in files of others: many steps that all go the same way. Immutable. */
final class RampInFile {
  /** So many steps one way, on which nothing came to rest, are a ramp; our choice. */
  private static final int LEAST_STEPS = 10;

  private final SlowRamp spec;
  private final Plateaus file;

  private RampInFile(SlowRamp spec, Plateaus file) {
    this.spec = spec;
    this.file = file;
  }

  static TraceFinder finder(SlowRamp spec, Plateaus file) {
    RampInFile ramp = new RampInFile(spec, file);
    return new TraceFinder(
        ramp::find,
        new TraceFinder.More(
            (i, free) -> ramp.goesOn(i, free) && !ramp.goesOn(i - 1, free), "ramp", "ramps"));
  }

  /** Whether the setpoint goes on the same way from here, in steps on which nothing rests. */
  private boolean goesOn(int index, IntPredicate free) {
    if (index < 1 || index + LEAST_STEPS > file.count()) {
      return false;
    }
    double way = file.change(index);
    return IntStream.range(index, index + LEAST_STEPS)
        .allMatch(i -> free.test(i) && !file.settled(i) && way * file.change(i) > 0.0);
  }

  /** There and back. */
  private Stretch find(int from) {
    double start = spec.from().percent();
    double turn = spec.to().percent();
    for (int i = from; i < file.count(); i++) {
      Optional<Stretch.Ramp> there = ramp(SlowRamp.Way.THERE, i, start, turn);
      if (there.isPresent()) {
        Optional<Stretch.Ramp> back = ramp(SlowRamp.Way.BACK, there.get().to(), turn, start);
        List<Stretch.Ramp> ramps = new ArrayList<>(List.of(there.get()));
        back.ifPresent(ramps::add);
        int end = back.orElse(there.get()).to() + 1;
        String note = back.isPresent() ? "" : "the file shows no ramp back";
        return new Stretch(i, end, Map.of(), Map.of(), Map.of(), ramps, note);
      }
    }
    return Stretch.none("the file shows no even ramp between its two places");
  }

  private Optional<Stretch.Ramp> ramp(SlowRamp.Way way, int begin, double from, double to) {
    double sign = Math.signum(to - from);
    if (!file.isNear(begin, from)) {
      return Optional.empty();
    }
    int i = begin + 1;
    while (i < file.count() && sign * file.change(i) > 0.0 && !file.isNear(i, to)) {
      i++;
    }
    boolean slow = i - begin > 2;
    return file.isNear(i, to) && slow
        ? Optional.of(new Stretch.Ramp(way, begin + 1, i))
        : Optional.empty();
  }
}
