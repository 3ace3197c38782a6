package org.benchstroke.io.instrument;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.OptionalDouble;
import org.benchstroke.core.quantity.Accuracy;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class ChannelTest {
  private static final Accuracy ACCURACY = new Accuracy(0.02, 0.0, 0.0, 0.001);

  @ParameterizedTest
  @CsvSource({
    "3.7, SATURATED",
    "3.8, SATURATED",
    "3.8004, SATURATED",
    "3.8006, GOOD",
    "12, GOOD",
    "20.4994, GOOD",
    "20.4996, SATURATED",
    "21, SATURATED"
  })
  void halfAStepFromAnEndIsAtTheEnd(double value, Quality quality) {
    Channel channel =
        new Channel("mA", ACCURACY, 0.001, OptionalDouble.of(3.8), OptionalDouble.of(20.5));
    assertThat(channel.qualityAt(value)).isEqualTo(quality);
  }

  @Test
  void anEndThatIsNotStatedIsNeverReached() {
    Channel channel =
        new Channel("mA", ACCURACY, 0.001, OptionalDouble.empty(), OptionalDouble.empty());
    assertThat(channel.qualityAt(-1e6)).isEqualTo(Quality.GOOD);
    assertThat(channel.qualityAt(1e6)).isEqualTo(Quality.GOOD);
  }
}
