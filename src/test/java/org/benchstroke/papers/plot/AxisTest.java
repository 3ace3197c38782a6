package org.benchstroke.papers.plot;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.List;
import java.util.Random;
import java.util.stream.DoubleStream;
import org.junit.jupiter.api.Test;

class AxisTest {
  @Test
  void stepsAreOneTwoOrFiveTimesAPowerOfTen() {
    assertThat(Axis.niceStep(0.9)).isEqualTo(1.0);
    assertThat(Axis.niceStep(1.0)).isEqualTo(1.0);
    assertThat(Axis.niceStep(1.2)).isEqualTo(2.0);
    assertThat(Axis.niceStep(3.1)).isEqualTo(5.0);
    assertThat(Axis.niceStep(5.1)).isEqualTo(10.0);
    assertThat(Axis.niceStep(0.013)).isEqualTo(0.02);
  }

  @Test
  void ticksStandOnRoundValuesWithTheDecimalsOfTheirStep() {
    Axis axis = Axis.covering("error, %", DoubleStream.of(-0.13, 0.27), 5);
    List<String> ticks = axis.ticks().stream().map(axis::tickText).toList();
    assertThat(ticks).containsExactly("−0.2", "−0.1", "0.0", "0.1", "0.2", "0.3");
  }

  @Test
  void anAxisOfTravelKeepsItsMarginOutsideTheTicks() {
    Axis axis = Axis.travel("position, % of travel", DoubleStream.of(0.0, 101.5), 6);
    assertThat(axis.low()).isEqualTo(-2.0);
    assertThat(axis.high()).isEqualTo(103.5);
    assertThat(axis.ticks()).containsExactly(0.0, 20.0, 40.0, 60.0, 80.0, 100.0);
  }

  @Test
  void anyValuesAreCovered() {
    Random random = new Random(11);
    for (int i = 0; i < 2000; i++) {
      double low = (random.nextDouble() - 0.5) * Math.pow(10.0, random.nextInt(8) - 4);
      double high = low + random.nextDouble() * Math.pow(10.0, random.nextInt(8) - 4);
      Axis axis = Axis.covering("x", DoubleStream.of(low, high), 6);
      assertThat(axis.low()).as("low of %s..%s", low, high).isLessThanOrEqualTo(low + 1e-9);
      assertThat(axis.high()).as("high of %s..%s", low, high).isGreaterThanOrEqualTo(high - 1e-9);
      assertThat(axis.ticks()).as("ticks of %s..%s", low, high).hasSizeBetween(2, 10);
    }
  }

  @Test
  void oneValueAloneStillGetsAnAxis() {
    Axis axis = Axis.covering("x", DoubleStream.of(3.0, 3.0), 5);
    assertThat(axis.low()).isLessThan(3.0);
    assertThat(axis.high()).isGreaterThan(3.0);
  }

  @Test
  void anAxisWithoutLengthIsRefused() {
    assertThatThrownBy(() -> new Axis("x", 1.0, 1.0, 1.0))
        .isInstanceOf(IllegalArgumentException.class);
  }
}
