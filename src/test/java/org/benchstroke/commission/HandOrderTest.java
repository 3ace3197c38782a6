package org.benchstroke.commission;

import static org.assertj.core.api.Assertions.assertThat;

import org.benchstroke.core.quantity.Current;
import org.benchstroke.core.quantity.SignalRange;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class HandOrderTest {
  private static final SignalRange SIGNAL = SignalRange.FOUR_TO_TWENTY;

  @ParameterizedTest
  @CsvSource({"12.5, 12.5", "4, 4", "12.5 mA, 12.5", "12mA, 12", "50%, 12", "100 %, 20", ".5, 0.5"})
  void amounts(String typed, double milliamps) {
    assertThat(HandOrder.of(typed, SIGNAL))
        .isEqualTo(new HandOrder.Set(Current.ofMilliamps(milliamps)));
  }

  @Test
  void percentOfAReversedSignal() {
    assertThat(HandOrder.of("25%", SIGNAL.reversed()))
        .isEqualTo(new HandOrder.Set(Current.ofMilliamps(16.0)));
  }

  @Test
  void words() {
    assertThat(HandOrder.of("+", SIGNAL)).isEqualTo(new HandOrder.Step(1));
    assertThat(HandOrder.of(" - ", SIGNAL)).isEqualTo(new HandOrder.Step(-1));
    assertThat(HandOrder.of("Safe", SIGNAL)).isEqualTo(new HandOrder.Safe());
    assertThat(HandOrder.of("q", SIGNAL)).isEqualTo(new HandOrder.Quit());
    assertThat(HandOrder.of("", SIGNAL)).isEqualTo(new HandOrder.Nothing());
    assertThat(HandOrder.of("step 0.1", SIGNAL)).isEqualTo(new HandOrder.StepSize(0.1));
    assertThat(HandOrder.of("step 1%", SIGNAL)).isEqualTo(new HandOrder.StepSize(0.16));
    assertThat(HandOrder.of("step 1%", SIGNAL.reversed())).isEqualTo(new HandOrder.StepSize(0.16));
  }

  /** A comma is no decimal point: 1,5 must neither be 15 nor be taken for 1.5 here only. */
  @ParameterizedTest
  @ValueSource(
      strings = {
        "1,5",
        "-5",
        "+0.5",
        "12x",
        "NaN",
        "1e1",
        "0x10",
        "Infinity",
        "%",
        "step",
        "step 0",
        "step -1",
        "step x",
        "12 13",
        "half",
        "99999999"
      })
  void unclear(String typed) {
    assertThat(HandOrder.of(typed, SIGNAL)).isInstanceOf(HandOrder.Unclear.class);
  }
}
