package org.benchstroke.core.quantity;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import com.fasterxml.jackson.databind.JsonNode;
import org.benchstroke.ReferenceData;
import org.junit.jupiter.api.Test;

/** Source: IEC 60381-1:1982, 4–20 mA; confidence: from memory, the title was seen. */
class SignalLevelsReferenceTest {
  private static final JsonNode LEVELS = ReferenceData.json("signal-levels.json");

  @Test
  void convertsFourToTwentyMilliampsBothWays() {
    assertThat(LEVELS.get("conversion_checks")).isNotEmpty();
    for (JsonNode check : LEVELS.get("conversion_checks")) {
      double percent = check.get("percent").asDouble();
      double milliamps = check.get("mA").asDouble();
      SignalRange range = SignalRange.FOUR_TO_TWENTY;
      assertThat(range.positionAt(Current.ofMilliamps(milliamps)).percent())
          .isCloseTo(percent, within(1e-9));
      assertThat(range.currentAt(Position.ofPercent(percent)).milliamps())
          .isCloseTo(milliamps, within(1e-9));
    }
  }

  /** Split range, from memory. The range never clips: the valve's own end does. */
  @Test
  void convertsSplitRanges() {
    assertThat(LEVELS.get("split_checks")).isNotEmpty();
    for (JsonNode check : LEVELS.get("split_checks")) {
      Current current = Current.ofMilliamps(check.get("mA").asDouble());
      assertThat(clipped(SignalRange.of(4, 12).positionAt(current)))
          .isCloseTo(check.get("valve_low_percent").asDouble(), within(1e-9));
      assertThat(clipped(SignalRange.of(12, 20).positionAt(current)))
          .isCloseTo(check.get("valve_high_percent").asDouble(), within(1e-9));
    }
  }

  private static double clipped(Position position) {
    return Math.max(0.0, Math.min(100.0, position.percent()));
  }
}
