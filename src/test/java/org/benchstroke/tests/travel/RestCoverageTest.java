package org.benchstroke.tests.travel;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.SplittableRandom;
import org.benchstroke.Counted;
import org.benchstroke.core.analysis.Creep;
import org.benchstroke.core.analysis.Direction;
import org.benchstroke.core.analysis.MadeUpNoise;
import org.benchstroke.core.analysis.RestNoise;
import org.benchstroke.core.analysis.RestReading;
import org.benchstroke.core.analysis.Spread;
import org.benchstroke.core.analysis.StaticCharacteristic.Pairing;
import org.benchstroke.core.analysis.Trace;
import org.benchstroke.core.quantity.Position;
import org.benchstroke.judge.Coverage;
import org.benchstroke.judge.JudgedBench;
import org.benchstroke.judge.Measure;
import org.benchstroke.judge.PositionBudget;
import org.benchstroke.judge.RecordFixture;
import org.benchstroke.judge.Truth;
import org.benchstroke.record.RunRecord;
import org.benchstroke.unit.MeasureKind;
import org.junit.jupiter.api.Test;

/**
 * Whether U holds the truth of units whose neighbouring readings go together, and of units that
 * still creep when they are read, whose truth is where the creep ends. Where the rest can't tell, U
 * is wide, and more than 97 % is no mistake.
 */
class RestCoverageTest {
  private static final int UNITS = Counted.of(2_000);
  private static final int SAMPLES = 20;
  private static final double PERIOD = 0.1;
  private static final double MOST = 100.0;
  private static final List<Position> POINTS =
      List.of(0.0, 25.0, 50.0, 75.0, 100.0).stream().map(Position::ofPercent).toList();
  private static final List<String> KINDS =
      List.of(
          "ar 0.3",
          "ar 0.5",
          "ar 0.8",
          "ar 0.9",
          "ar 0.95",
          "ar 0.98",
          "average 4",
          "average 8",
          "half 0.9",
          "hum 0.02",
          "hum 0.06",
          "drift 0.03");

  private static JudgedBench judged(List<Trace> up, List<Trace> down, double step) {
    List<double[]> windows = new ArrayList<>();
    up.forEach(w -> windows.add(values(w)));
    down.forEach(w -> windows.add(values(w)));
    Map<Direction, Double> creep = new EnumMap<>(Direction.class);
    creep.put(Direction.UP, Creep.beyondPercent(up, step));
    creep.put(Direction.DOWN, Creep.beyondPercent(down, step));
    RecordFixture fixture = new RecordFixture();
    return new JudgedBench(
        fixture.bench(),
        fixture.unit(),
        new RunRecord(fixture.entries, List.of()),
        false,
        OptionalDouble.empty(),
        Optional.empty(),
        Map.of(Truth.FEEDBACK, RestNoise.of(windows)),
        Map.of(Truth.FEEDBACK, creep),
        Map.of());
  }

  private static double[] values(Trace window) {
    return window.samples().stream().mapToDouble(Trace.Sample::percent).toArray();
  }

  private static Trace trace(double[] values) {
    Trace.Builder trace = Trace.builder(values.length);
    for (int i = 0; i < values.length; i++) {
      trace.add(i * PERIOD, 0.001, values[i], false);
    }
    return trace.build();
  }

  private static RestReading reading(TravelError.Place place, Trace window) {
    Spread s = window.spread();
    return new RestReading(
        place.setpointPercent(),
        place.direction(),
        place.cycle(),
        s.mean(),
        s.deviation(),
        SAMPLES);
  }

  /** The source is off by anything within its bound, ±(0.02 % of reading + 2 µA), and its step. */
  private static double off(SplittableRandom r, double percent) {
    double bound = 6.25 * (0.0002 * (4.0 + percent / 6.25) + 0.002);
    double step = 6.25 * r.nextDouble(-0.0005, 0.0005) + 6.25 * r.nextDouble(-0.0005, 0.0005);
    return bound * r.nextDouble(-1, 1) + bound * r.nextDouble(-1, 1) + step;
  }

  @Test
  void neighboursThatGoTogether() {
    Coverage coverage = new Coverage();
    for (int seed = 0; seed < UNITS; seed++) {
      SplittableRandom r = new SplittableRandom(77_003L * seed + 5);
      String kind = KINDS.get(seed % KINDS.size());
      double noise = r.nextDouble(0.01, 0.05);
      TravelError spec = new TravelError(POINTS, 1);
      List<RestReading> readings = new ArrayList<>();
      List<Trace> up = new ArrayList<>();
      List<Trace> down = new ArrayList<>();
      for (TravelError.Place place : spec.places()) {
        double at = place.setpointPercent() + off(r, place.setpointPercent());
        double[] values = MadeUpNoise.of(kind, SAMPLES, r);
        for (int i = 0; i < SAMPLES; i++) {
          values[i] = at + noise * values[i];
        }
        Trace window = trace(values);
        readings.add(reading(place, window));
        (place.direction() == Direction.UP ? up : down).add(window);
      }
      // The rests of its strokes.
      for (int k = 0; k < 8; k++) {
        (k % 2 == 0 ? up : down).add(trace(MadeUpNoise.of(kind, SAMPLES, r)));
      }
      TravelReadings taken = new TravelReadings(Truth.FEEDBACK, spec, readings, Map.of());
      PositionBudget budget = judged(up, down, 0.0).budget(Truth.FEEDBACK);
      Measure error = new TravelMeasures(taken, budget, "").all().get(seed % 8);
      coverage.add("travel error, neighbouring readings go together", error, 0.0);
    }
    coverage.check("coverage-neighbours.md", 1, MOST);
  }

  @Test
  void unitsThatCreep() {
    Coverage coverage = new Coverage();
    for (int seed = 0; seed < UNITS; seed++) {
      SplittableRandom r = new SplittableRandom(91_009L * seed + 5);
      double timeConstant = Math.exp(r.nextDouble(0.0, Math.log(60.0)));
      // Slower than 0.005 % a second it is not seen; see what is not in U.
      double amplitude = Math.max(r.nextDouble(0.02, 0.5), 0.005 * timeConstant);
      boolean oneWay = seed % 3 == 0;
      double slack = r.nextDouble(0.1, 0.5);
      double noise = r.nextDouble(0.001, 0.006);
      TravelError spec = new TravelError(POINTS, 1);
      List<RestReading> readings = new ArrayList<>();
      List<Trace> up = new ArrayList<>();
      List<Trace> down = new ArrayList<>();
      Map<Double, Double> off = new HashMap<>();
      POINTS.forEach(p -> off.put(p.percent(), off(r, p.percent())));
      for (int k = 0; k < 2; k++) {
        for (TravelError.Place place : spec.places()) {
          boolean rises = place.direction() == Direction.UP;
          double creeps = rises ? -amplitude : oneWay ? 0.0 : amplitude;
          double level = place.setpointPercent() + (rises ? -0.5 : 0.5) * slack;
          double shared = k == 0 ? off.get(place.setpointPercent()) : 0.0;
          double since = 1.3 + 0.3 * r.nextDouble();
          double[] values = new double[SAMPLES];
          for (int i = 0; i < SAMPLES; i++) {
            double left = creeps * Math.exp(-(since + i * PERIOD) / timeConstant);
            values[i] = level + shared + left + noise * r.nextGaussian();
          }
          Trace window = trace(values);
          if (k == 0) {
            readings.add(reading(place, window));
          }
          (rises ? up : down).add(window);
        }
      }
      TravelReadings taken = new TravelReadings(Truth.FEEDBACK, spec, readings, Map.of());
      PositionBudget budget = judged(up, down, 0.0).budget(Truth.FEEDBACK);
      for (Measure m : new TravelMeasures(taken, budget, "").all()) {
        if (m.kind() == MeasureKind.TRAVEL_ERROR && m.place().words().equals("50 % up")) {
          coverage.add("travel error of a unit that creeps", m, -0.5 * slack);
        }
      }
      Measure h = new LagMeasures(taken, budget).at(50.0, Pairing.MEANS);
      coverage.add("hysteresis + dead band of a unit that creeps, at one point", h, slack);
    }
    coverage.check("coverage-creep.md", 2, MOST);
  }
}
