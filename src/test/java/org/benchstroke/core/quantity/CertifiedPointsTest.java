package org.benchstroke.core.quantity;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.stream.DoubleStream;
import org.benchstroke.core.quantity.CertifiedPoints.Point;
import org.junit.jupiter.api.Test;

class CertifiedPointsTest {
  private static final CertifiedPoints POINTS =
      new CertifiedPoints(
          List.of(
              new Point(4.0, 0.002, 0.0004),
              new Point(12.0, -0.002, 0.0006),
              new Point(20.0, 0.004, 0.0004)));

  /** By hand: straight between the points, as at the last one beyond it. */
  @Test
  void straightBetweenAndConstantBeyond() {
    assertThat(POINTS.correctionAt(4.0)).isEqualTo(0.002);
    assertThat(POINTS.correctionAt(6.0)).isCloseTo(0.001, within(1e-12));
    assertThat(POINTS.correctionAt(12.0)).isCloseTo(-0.002, within(1e-12));
    assertThat(POINTS.correctionAt(18.0)).isCloseTo(0.0025, within(1e-12));
    assertThat(POINTS.correctionAt(3.6)).isEqualTo(0.002);
    assertThat(POINTS.correctionAt(21.0)).isEqualTo(0.004);
    assertThat(POINTS.standardAt(8.0)).isCloseTo(0.0005, within(1e-12));
    assertThat(POINTS.beyond(3.6)).isCloseTo(0.4, within(1e-12));
    assertThat(POINTS.beyond(21.0)).isCloseTo(1.0, within(1e-12));
    assertThat(POINTS.beyond(20.0)).isZero();
  }

  /**
   * A parabola c·x² through any even points has f″ = 2c everywhere and leaves its chords by c·h²/4:
   * |f″|·h²/8, the remainder of linear interpolation (Abramowitz and Stegun 25.2.2, from memory).
   */
  @Test
  void theBendOfAParabolaIsExact() {
    double c = 3.0e-5;
    double h = 4.0;
    CertifiedPoints parabola =
        new CertifiedPoints(
            DoubleStream.of(4, 8, 12, 16, 20).mapToObj(x -> new Point(x, c * x * x, 0)).toList());
    assertThat(parabola.bend()).isCloseTo(c * h * h / 4.0, within(1e-12));
    for (double x = 4.0; x <= 20.0; x += 0.25) {
      assertThat(Math.abs(parabola.correctionAt(x) - c * x * x))
          .isLessThanOrEqualTo(parabola.bend() + 1e-12);
    }
  }

  /** One wave over the range, met at five points: its bend holds it. */
  @Test
  void theBendHoldsAWave() {
    CertifiedPoints wave =
        new CertifiedPoints(
            DoubleStream.of(4, 8, 12, 16, 20).mapToObj(x -> new Point(x, wave(x), 0)).toList());
    for (double x = 4.0; x <= 20.0; x += 0.1) {
      assertThat(Math.abs(wave.correctionAt(x) - wave(x))).isLessThanOrEqualTo(wave.bend());
    }
  }

  private static double wave(double x) {
    return 0.01 * Math.sin(2.0 * Math.PI * (x - 4.0) / 16.0);
  }

  @Test
  void twoPointsDoNotShowABend() {
    assertThatThrownBy(() -> new CertifiedPoints(POINTS.points().subList(0, 2)))
        .isInstanceOf(IllegalArgumentException.class);
  }
}
