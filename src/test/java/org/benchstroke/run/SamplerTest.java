package org.benchstroke.run;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;

class SamplerTest {
  @Test
  void aGapOfABenchThatIsServedFasterThanRealTimeNamesTheOption() {
    assertThat(Sampler.hurried(1.0)).isEmpty();
    assertThat(Sampler.hurried(0.5)).isEmpty();
    assertThat(Sampler.hurried(8.0)).contains("8 × real time").endsWith("lower --time-scale");
  }
}
