package org.benchstroke.run;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Set;
import org.benchstroke.core.model.Noise;
import org.benchstroke.core.quantity.Angle;
import org.benchstroke.core.quantity.Position;
import org.benchstroke.io.instrument.Doubt;
import org.benchstroke.io.instrument.Reading;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** A quarter turn, 0.9° of stem for 1 % of travel, read in steps of 0.01°. */
class StemWatchTest {
  private static final double DEGREES_PER_PERCENT = 0.9;
  private static final double STEP_DEGREES = 0.01;
  private static final int SEEDS = 200;

  private final StemWatch watch = new StemWatch();

  @Test
  void anAngleThatStaysWhileTheFeedbackTravelsIsTold() {
    for (double y = 25.0; y <= 50.0; y += 0.5) {
      round(watch, y, 22.5);
    }
    assertThat(watch.frozen())
        .hasValueSatisfying(
            told ->
                assertThat(told)
                    .contains("stayed 22.50°", "travelled 25.0 %", "fixed to the stem"));
  }

  @Test
  void anAngleThatFollowsIsNot() {
    for (double y = 25.0; y <= 50.0; y += 0.5) {
      round(watch, y, DEGREES_PER_PERCENT * y);
    }
    assertThat(watch.frozen()).isEmpty();
  }

  /** Slack or a small step may leave the stem where it was. */
  @ParameterizedTest
  @CsvSource({"4.9, false", "5.1, true"})
  void onlyFarMoreTravelThanSlackCounts(double travel, boolean told) {
    round(watch, 50.0, 45.0);
    round(watch, 50.0 - travel, 45.0);
    assertThat(watch.frozen().isPresent()).isEqualTo(told);
  }

  @Test
  void withoutAnAngleThereIsNothingToTell() {
    watch.position(Position.ofPercent(0.0));
    watch.position(Position.ofPercent(100.0));
    assertThat(watch.frozen()).isEmpty();
  }

  @Test
  void anAngleAtTheEndOfItsRangeRightlyStays() {
    for (double y = 90.0; y <= 100.0; y += 0.5) {
      watch.position(Position.ofPercent(y));
      watch.angle(reading(80.0, Set.of(Doubt.SATURATED)));
    }
    assertThat(watch.frozen()).isEmpty();
  }

  /** Wherever on the way it stops, so long as enough of the way is left to tell. */
  @Test
  void anAngleThatStopsOnTheWayIsTold() {
    for (long seed = 1; seed <= SEEDS; seed++) {
      Noise noise = new Noise(seed);
      double from = 50.0 + 40.0 * noise.symmetric();
      double to = from < 50.0 ? from + 40.0 : from - 40.0;
      double stopsAt = from + (to - from) * 0.4 * (1.0 + noise.symmetric());
      StemWatch each = new StemWatch();
      double held = Double.NaN;
      for (int i = 0; i <= 60; i++) {
        double y = from + (to - from) * Math.min(i / 40.0, 1.0);
        boolean stopped = Math.abs(y - from) >= Math.abs(stopsAt - from);
        held = stopped && !Double.isNaN(held) ? held : angle(y, noise);
        round(each, y + 0.02 * noise.normal(), held);
      }
      assertThat(each.frozen()).as("seed %d", seed).isPresent();
    }
  }

  /** A reference that gives a new value only so often has followed when the unit is at rest. */
  @Test
  void aSlowAngleThatLivesIsNeverTold() {
    for (long seed = 1; seed <= SEEDS; seed++) {
      Noise noise = new Noise(seed);
      int every = 10 + (int) Math.round(5.0 * noise.symmetric());
      double from = 50.0 + 40.0 * noise.symmetric();
      double to = from < 50.0 ? from + 40.0 : from - 40.0;
      StemWatch each = new StemWatch();
      double held = angle(from, noise);
      for (int i = 0; i <= 60; i++) {
        double y = from + (to - from) * Math.min(i / 40.0, 1.0);
        held = i % every == 0 ? angle(y, noise) : held;
        round(each, y + 0.02 * noise.normal(), held);
      }
      assertThat(each.frozen()).as("seed %d", seed).isEmpty();
    }
  }

  private static double angle(double percent, Noise noise) {
    double degrees = DEGREES_PER_PERCENT * percent + 0.02 * noise.normal();
    return Math.rint(degrees / STEP_DEGREES) * STEP_DEGREES;
  }

  private static void round(StemWatch watch, double percent, double degrees) {
    watch.position(Position.ofPercent(percent));
    watch.angle(reading(degrees, Doubt.NONE));
  }

  private static Reading<Angle> reading(double degrees, Set<Doubt> doubts) {
    return new Reading<>(Angle.ofDegrees(degrees), doubts, "", 0, 0);
  }
}
