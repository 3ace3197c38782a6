package org.benchstroke.core.analysis;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.function.UnaryOperator;
import org.benchstroke.core.analysis.Linearity.Point;
import org.benchstroke.core.analysis.StaticCharacteristic.Pairing;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** What must hold whatever the readings are; a failure prints its seed. */
class CharacteristicPropertyTest {

  private static StaticCharacteristic random(long seed) {
    Random random = new Random(seed);
    List<RestReading> readings = new ArrayList<>();
    int points = 3 + random.nextInt(9);
    for (int cycle = 1; cycle <= 1 + random.nextInt(3); cycle++) {
      for (int i = 1; i < points; i++) {
        readings.add(reading(random, 100.0 * i / (points - 1), Direction.UP, cycle));
      }
      for (int i = points - 2; i >= 0; i--) {
        readings.add(reading(random, 100.0 * i / (points - 1), Direction.DOWN, cycle));
      }
    }
    return new StaticCharacteristic(readings);
  }

  private static RestReading reading(Random random, double at, Direction direction, int cycle) {
    return new RestReading(at, direction, cycle, at + random.nextGaussian(), 0.01, 20);
  }

  private static StaticCharacteristic mapped(
      StaticCharacteristic c, UnaryOperator<RestReading> each) {
    return new StaticCharacteristic(c.readings().stream().map(each).toList());
  }

  private static RestReading shifted(RestReading r, double by) {
    return new RestReading(
        r.setpointPercent(), r.direction(), r.cycle(), r.meanPercent() + by, 0.01, 20);
  }

  @ParameterizedTest
  @ValueSource(longs = {1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 15, 16, 17, 18, 19, 20})
  void anOffsetChangesTheZeroAndNothingElse(long seed) {
    StaticCharacteristic before = random(seed);
    StaticCharacteristic after = mapped(before, r -> shifted(r, 1.5));
    for (Pairing pairing : Pairing.values()) {
      assertThat(after.hysteresisPlusDeadBand(pairing).orElseThrow().percent())
          .isCloseTo(before.hysteresisPlusDeadBand(pairing).orElseThrow().percent(), within(1e-9));
    }
    assertThat(after.zeroError().orElseThrow())
        .isCloseTo(before.zeroError().orElseThrow() + 1.5, within(1e-9));
    assertThat(after.spanError().orElseThrow())
        .isCloseTo(before.spanError().orElseThrow(), within(1e-9));
    assertThat(Linearity.independent(after.averageCurve()).deviation())
        .isCloseTo(Linearity.independent(before.averageCurve()).deviation(), within(1e-9));
    assertThat(Linearity.terminal(after.averageCurve()).deviation())
        .isCloseTo(Linearity.terminal(before.averageCurve()).deviation(), within(1e-9));
  }

  @ParameterizedTest
  @ValueSource(longs = {1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 15, 16, 17, 18, 19, 20})
  void exchangingUpAndDownTurnsTheSignOfHysteresis(long seed) {
    StaticCharacteristic before = random(seed);
    StaticCharacteristic after =
        mapped(
            before,
            r ->
                new RestReading(
                    r.setpointPercent(),
                    r.direction() == Direction.UP ? Direction.DOWN : Direction.UP,
                    r.cycle(),
                    r.meanPercent(),
                    0.01,
                    20));
    assertThat(after.hysteresisPlusDeadBand(Pairing.MEANS).orElseThrow().percent())
        .isCloseTo(
            -before.hysteresisPlusDeadBand(Pairing.MEANS).orElseThrow().percent(), within(1e-9));
  }

  /** The independent line is the best: no other line, tried at random, does better. */
  @ParameterizedTest
  @ValueSource(longs = {1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 15, 16, 17, 18, 19, 20})
  void noLineBeatsTheIndependentOne(long seed) {
    List<Point> curve = random(seed).averageCurve();
    Linearity.Deviation best = Linearity.independent(curve);
    assertThat(largest(curve, best.intercept(), best.slope()))
        .isCloseTo(best.deviation(), within(1e-9));
    Linearity.Deviation zeroBased = Linearity.zeroBased(curve);
    assertThat(best.deviation()).isLessThanOrEqualTo(Math.abs(zeroBased.deviation()) + 1e-9);
    assertThat(Math.abs(zeroBased.deviation()))
        .isLessThanOrEqualTo(Math.abs(Linearity.terminal(curve).deviation()) + 1e-9);
    Random random = new Random(seed);
    for (int i = 0; i < 500; i++) {
      double slope = best.slope() + random.nextGaussian() * 0.01;
      assertThat(largest(curve, best.intercept() + random.nextGaussian() * 0.1, slope))
          .isGreaterThanOrEqualTo(best.deviation() - 1e-9);
      double through = zeroBased.slope() + random.nextGaussian() * 0.01;
      assertThat(largest(curve, curve.get(0).y() - through * curve.get(0).x(), through))
          .isGreaterThanOrEqualTo(Math.abs(zeroBased.deviation()) - 1e-9);
    }
  }

  private static double largest(List<Point> curve, double intercept, double slope) {
    return curve.stream()
        .mapToDouble(p -> Math.abs(p.y() - intercept - slope * p.x()))
        .max()
        .orElseThrow();
  }

  /** The weights are the deviation's true dependence on each point. */
  @ParameterizedTest
  @ValueSource(longs = {1, 2, 3, 4, 5, 6, 7, 8, 9, 10})
  void weightsAreTheSensitivities(long seed) {
    List<Point> curve = random(seed).averageCurve();
    double step = 1e-7;
    for (Point moved : curve) {
      List<Point> changed =
          curve.stream().map(p -> p.equals(moved) ? new Point(p.x(), p.y() + step) : p).toList();
      for (boolean terminal : new boolean[] {true, false}) {
        Linearity.Deviation before =
            terminal ? Linearity.terminal(curve) : Linearity.independent(curve);
        Linearity.Deviation after =
            terminal ? Linearity.terminal(changed) : Linearity.independent(changed);
        double weight =
            before.weights().stream()
                .filter(w -> w.x() == moved.x())
                .mapToDouble(Linearity.Weight::weight)
                .sum();
        assertThat((after.deviation() - before.deviation()) / step).isCloseTo(weight, within(1e-5));
      }
    }
  }
}
