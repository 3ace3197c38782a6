package org.benchstroke.aids.diagnosis;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import java.util.function.DoubleBinaryOperator;
import java.util.function.DoubleUnaryOperator;
import org.assertj.core.data.Offset;
import org.junit.jupiter.api.Test;

/** What stands can tell of the error's law, by where they lie. */
class LawTest {
  private static final Offset<Double> NEAR = Offset.offset(1e-9);

  /**
   * Up and down at these setpoints, each warmer by 10 s than the last, off by what place and warmth
   * make of it.
   */
  private static List<Stand> stands(DoubleBinaryOperator error, double... setpoints) {
    List<Stand> stands = new ArrayList<>();
    for (int i = 0; i < setpoints.length; i++) {
      stands.add(stand(setpoints[i], 1, 10.0 * i, error));
    }
    for (int i = setpoints.length - 1; i >= 0; i--) {
      stands.add(stand(setpoints[i], -1, 10.0 * (2 * setpoints.length - 1 - i), error));
    }
    return stands;
  }

  private static Stand stand(double setpoint, int way, double at, DoubleBinaryOperator error) {
    double stood = setpoint + error.applyAsDouble(setpoint, at) - 0.2 * way;
    return new Stand(setpoint, way, at, stood, OptionalDouble.empty(), 0.01, false, false);
  }

  private static Law law(List<Stand> stands) {
    return Law.of(stands, Stand::errorPercent).orElseThrow();
  }

  /** Six stands at three places: an S there is no other than a slope. */
  @Test
  void threePointsUpAndDownTellTheFirstTerms() {
    Law law = law(stands((s, t) -> 0.02 * s, 25, 50, 75));
    assertThat(law.middle().value()).isCloseTo(1.0, NEAR);
    assertThat(law.rise().value()).isCloseTo(2.0, NEAR);
    assertThat(law.lag().value()).isCloseTo(0.4, NEAR);
    assertThat(law.bend().told()).isFalse();
    assertThat(law.drift().told()).isFalse();
    assertThat(law.bend().beyond(0.0)).isFalse();
  }

  /** However many stands there are at three places, no S is told; the drift is. */
  @Test
  void moreStandsAtThreePlacesTellTheDriftToo() {
    Law law = law(stands((s, t) -> 0.01 * t, 25, 50, 75, 25, 50, 75));
    assertThat(law.drift().value()).isCloseTo(1.1, NEAR);
    assertThat(law.bend().told()).isFalse();
  }

  @Test
  void fivePlacesTellAnSFromASlope() {
    Law law =
        law(stands((s, t) -> Math.sin(2.0 * Math.PI * s / 100.0) + 0.01 * s, 10, 25, 50, 75, 90));
    assertThat(law.bend().value()).isCloseTo(1.0, NEAR);
    assertThat(law.rise().value()).isCloseTo(1.0, NEAR);
    assertThat(law.drift().value()).isCloseTo(0.0, NEAR);
  }

  /**
   * A fourth place close to one of the three makes the matrix regular, and the S no better told.
   */
  @Test
  void aPlaceBesideAnotherIsNoFurtherPlace() {
    assertThat(law(stands((s, t) -> 0.02 * s, 25, 50, 51, 75)).bend().told()).isFalse();
  }

  @Test
  void onePlaceOrOneWayTellsNone() {
    assertThat(Law.of(stands((s, t) -> 1.0, 50, 50, 50, 50), Stand::errorPercent)).isEmpty();
    List<Stand> up =
        stands((s, t) -> 1.0, 10, 25, 40, 60, 75, 90).stream().filter(s -> s.way() > 0).toList();
    assertThat(Law.of(up, Stand::errorPercent)).isEmpty();
  }

  /** A single stand that is somewhere else is left out, with few stands as with many. */
  @Test
  void oneThatIsSomewhereElseIsLeftOut() {
    List<Stand> stands = stands((s, t) -> 1.0, 25, 50, 75, 25, 50, 75);
    stands.set(4, stand(50, 1, 40.0, (s, t) -> 9.0));
    assertThat(law(stands).middle().value()).isCloseTo(1.0, NEAR);
  }

  /** To one side, whatever its shape: its ends are where they should be. */
  @Test
  void anArcIsNeitherZeroNorSlope() {
    List<DoubleUnaryOperator> shapes =
        List.of(
            share -> Math.sin(Math.PI * share),
            share -> 4.0 * share * (1.0 - share),
            share -> Math.min(share / 0.3, (1.0 - share) / 0.7));
    for (DoubleUnaryOperator shape : shapes) {
      Law law =
          law(stands((s, t) -> 2.0 * shape.applyAsDouble(s / 100.0), 10, 25, 40, 50, 60, 75, 90));
      assertThat(law.arc().beyond(Law.WORTH_SAYING)).isTrue();
      assertThat(law.zero().beyond(Law.WORTH_SAYING)).as("zero %s", law.zero()).isFalse();
      assertThat(law.rise().beyond(0.6)).as("rise %s", law.rise()).isFalse();
      assertThat(law.bent().orElseThrow().value()).isBetween(1.4, 2.2);
    }
  }

  /** What the stands show of an arc that is not there does not blur what is. */
  @Test
  void aStraightLineIsToldAsFinelyAsWithoutAnArc() {
    Law law = law(stands((s, t) -> 1.0 + 0.01 * s, 10, 25, 50, 75, 90));
    assertThat(law.arc().told()).isTrue();
    assertThat(law.zero().value()).isCloseTo(1.0, NEAR);
    assertThat(law.atTop()).isCloseTo(2.0, NEAR);
  }
}
