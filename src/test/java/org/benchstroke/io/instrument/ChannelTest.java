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
    "3.7, true",
    "3.8, true",
    "3.8004, true",
    "3.8006, false",
    "12, false",
    "20.4994, false",
    "20.4996, true",
    "21, true"
  })
  void halfAStepFromAnEndIsAtTheEnd(double value, boolean saturated) {
    Channel channel =
        new Channel("mA", ACCURACY, 0.001, OptionalDouble.of(3.8), OptionalDouble.of(20.5));
    assertThat(channel.doubtsOf(value).contains(Doubt.SATURATED)).isEqualTo(saturated);
  }

  @Test
  void anEndThatIsNotStatedIsNeverReached() {
    Channel channel =
        new Channel("mA", ACCURACY, 0.001, OptionalDouble.empty(), OptionalDouble.empty());
    assertThat(channel.doubtsOf(-1e6)).isEmpty();
    assertThat(channel.doubtsOf(1e6)).isEmpty();
  }
}
