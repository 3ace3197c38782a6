package org.benchstroke.core.model;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.OptionalDouble;
import org.benchstroke.core.model.UnitTruth.Ordered;
import org.benchstroke.core.model.UnitTruth.SwitchAngles;
import org.benchstroke.core.quantity.Characteristic;
import org.benchstroke.core.quantity.SignalRange;
import org.junit.jupiter.api.Test;

/** The truth against what the parameters say in closed form. */
class UnitTruthTest {
  private static final ModelParameters B = ModelParameters.baseline();
  private static final Ordered ORDERED =
      new Ordered(SignalRange.FOUR_TO_TWENTY, Characteristic.linear(), SignalRange.FOUR_TO_TWENTY);

  private static UnitTruth truth(ModelParameters parameters) {
    return UnitTruth.of(parameters, ORDERED);
  }

  @Test
  void soundUnit() {
    UnitTruth truth = truth(B);
    assertThat(truth.points()).hasSize(11);
    assertThat(truth.points().get(5).percent()).isEqualTo(50.0);
    for (UnitTruth.Point point : truth.points()) {
      assertThat(point.up().orElse(0.0)).isCloseTo(0.0, within(0.1));
      assertThat(point.down().orElse(0.0)).isCloseTo(0.0, within(0.1));
    }
    assertThat(truth.points().get(0).up()).isEmpty();
    assertThat(truth.points().get(10).down()).isEmpty();
    assertThat(truth.startPercent()).hasValue(0.5);
    assertThat(truth.stopPercent()).hasValue(0.4);
    assertThat(truth.switches().get("open auxiliary")).isEqualTo(new SwitchAngles(88.33, 87.33));
    assertThat(truth.switches().get("closed"))
        .satisfies(a -> assertThat(a.resetDegrees()).isCloseTo(0.67, within(1e-12)));
  }

  // Separation of variables: c = τ·ω0 − a·τ²·ln(1 + ω0/(a·τ)) with ω0 = 5.94°/s, τ = 0.02 s, a =
  // 60°/s²; 100 % are 90°.
  @Test
  void coastIsTheClosedForm() {
    double degrees = 0.02 * 5.94 - 60.0 * 0.02 * 0.02 * Math.log(1.0 + 5.94 / (60.0 * 0.02));
    assertThat(truth(B).coastPercent().orElseThrow()).isCloseTo(degrees / 0.9, within(0.007));
  }

  // 90 % of 90° without seat torque, at 5.94°/s: the time of a stroke is 90/5.94.
  @Test
  void strokeTimeIsTheClosedForm() {
    ModelParameters even = B.with(new LoadParameters(0.2, 0.0, 5.0, 1.0));
    UnitTruth truth = truth(even);
    assertThat(truth.openingSeconds().orElseThrow()).isCloseTo(90.0 / 5.94, within(0.01));
    assertThat(truth.closingSeconds().orElseThrow()).isCloseTo(90.0 / 5.94, within(0.01));
  }

  // R + D = 2·h_on, whatever the coast; source: the project's own simulation.
  @Test
  void staircasesHoldTheControllersSettings() {
    ModelParameters slow =
        B.with(B.motor().withStroke(30.0)).with(B.control().withThresholds(1.0, 0.5));
    UnitTruth truth = truth(slow);
    double dead = truth.deadBandPercent().orElseThrow();
    double resolution = truth.resolutionPercent().orElseThrow();
    assertThat(dead + resolution).isCloseTo(2.0, within(0.02));
    assertThat(dead).isCloseTo(1.3, within(0.05));
    assertThat(resolution).isCloseTo(0.7, within(0.05));
  }

  // 10 % of step, 0.5 % of threshold: the filter lets it pass after at most −0.03·ln(1 − 1/10) =
  // 3 ms; then on average half a period of 20 ms, the relay's 10 ms and a step or two.
  @Test
  void deadTimeIsFilterPeriodAndRelay() {
    UnitTruth truth = truth(B);
    double first = truth.deadTime().firstMotionSeconds().orElseThrow();
    assertThat(first).isBetween(0.018, 0.03);
    // Until two steps of the reading show: the transmitter lags by 0.05 s, the motor gathers speed.
    assertThat(truth.deadTime().deadSeconds().orElseThrow()).isBetween(first + 0.01, first + 0.2);
    double loose =
        truth(B.with(B.mechanics().withPlay(1.0, 0.0, 0.0)))
            .reversalDeadTime()
            .firstMotionSeconds()
            .orElseThrow();
    // 0.9° of play while it runs up: θ = ω∞·(t − τ·(1 − e^(−t/τ))) is 0.9° at t = 0.220 s.
    assertThat(loose - truth.reversalDeadTime().firstMotionSeconds().orElseThrow())
        .isCloseTo(0.220, within(0.01));
  }

  @Test
  void errorsAreThoseOfTransmitterAndStem() {
    UnitTruth errors = truth(B.with(B.transmitter().withErrors(1.5, 2.0)));
    // The end of the output, 20.5 mA, is at 103.1 %, so 103.5 % at the top are clipped.
    assertThat(errors.zeroPercent().orElseThrow()).isCloseTo(1.5, within(0.1));
    assertThat(errors.points().get(5).up().orElseThrow()).isCloseTo(2.5, within(0.1));
    assertThat(errors.points().get(10).up().orElseThrow()).isCloseTo(3.125, within(1e-9));
    assertThat(errors.stemZeroPercent().orElseThrow()).isCloseTo(0.0, within(0.1));

    UnitTruth slack = truth(B.with(B.mechanics().withPlay(0.0, 0.0, 1.0)));
    UnitTruth.Point middle = slack.points().get(5);
    double stem = middle.stemDown().orElseThrow() - middle.stemUp().orElseThrow();
    double feedback = middle.down().orElseThrow() - middle.up().orElseThrow();
    assertThat(stem - feedback).isCloseTo(1.0, within(0.01));
  }

  @Test
  void aUnitThatNeverRestsHasNoValueThere() {
    ModelParameters hunting =
        B.with(B.motor().withBrake(0.1, 20.0)).with(B.control().withThresholds(0.3, 0.1));
    UnitTruth truth = truth(hunting);
    assertThat(truth.points().get(5).up()).isEqualTo(OptionalDouble.empty());
    assertThat(truth.deadBandPercent()).isEmpty();
  }

  @Test
  void aShortCamHasNoStrokeTime() {
    UnitTruth truth = truth(B.with(B.cams().withOpen(82.8)));
    assertThat(truth.openingSeconds()).isEmpty();
    assertThat(truth.points().get(10).up().orElseThrow()).isCloseTo(-8.0, within(0.2));
  }
}
