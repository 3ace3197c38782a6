package org.benchstroke.aids.diagnosis;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.function.DoubleUnaryOperator;
import org.assertj.core.data.Offset;
import org.benchstroke.core.analysis.Trace;
import org.junit.jupiter.api.Test;

/** How warm a unit is by how long it ran. */
class WarmthTest {
  private static final double SPEED = 10.0;

  private static Warmth of(double seconds, DoubleUnaryOperator percentAt) {
    Trace.Builder trace = Trace.builder(10);
    for (double t = 0.0; t <= seconds; t += 0.1) {
      trace.add(t, 0.0, percentAt.applyAsDouble(t), false);
    }
    return new Warmth(trace.build(), SPEED);
  }

  /** A stroke of 10 s, then a hold: after a time constant a third and a little more is left. */
  @Test
  void aStrokeWarmsAndAHoldLetsItCool() {
    Warmth warmth = of(1000.0, t -> Math.min(100.0, SPEED * t));
    assertThat(warmth.at(-1.0)).isZero();
    assertThat(warmth.at(5.05)).isCloseTo(5.0, Offset.offset(0.1));
    assertThat(warmth.at(10.0)).isCloseTo(9.95, Offset.offset(0.1));
    assertThat(warmth.at(910.0)).isCloseTo(10.0 / Math.E, Offset.offset(0.1));
    assertThat(warmth.at(2000.0)).isPositive();
  }

  /** Readings that scatter are no running. */
  @Test
  void noiseWarmsNothing() {
    assertThat(of(100.0, t -> 50.0 + 0.1 * Math.sin(37.0 * t)).at(100.0)).isZero();
  }
}
