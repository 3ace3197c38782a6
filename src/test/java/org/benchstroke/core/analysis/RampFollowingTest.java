package org.benchstroke.core.analysis;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;

/** How a position follows a ramp, and what can't be said of one. */
class RampFollowingTest {
  private static final RampFollowing.Line LINE = new RampFollowing.Line(0.0, 20.0, 60.0, 80.0);

  private static Trace trace(double period, double pegged) {
    Trace.Builder trace = Trace.builder(16);
    for (double t = 0.0; t <= 60.0; t += period) {
      double y = LINE.at(t - 0.4);
      trace.add(t, 0.001, Math.min(y, pegged), y >= pegged);
    }
    return trace.build();
  }

  @Test
  void aConstantLagIsFound() {
    Trace trace = trace(0.1, 100.0);
    assertThat(RampFollowing.unfit(trace, LINE)).isEmpty();
    RampFollowing ramp = RampFollowing.of(trace, LINE, 0.1);
    assertThat(ramp.lagSeconds()).isCloseTo(0.4, within(1e-9));
    assertThat(ramp.residualPercent()).isCloseTo(0.0, within(1e-9));
  }

  @Test
  void aPeggedPositionAndAFewSamplesAreUnfit() {
    assertThat(RampFollowing.unfit(trace(0.1, 70.0), LINE)).get().asString().contains("saturated");
    assertThat(RampFollowing.unfit(trace(3.0, 100.0), LINE)).get().asString().contains("samples");
  }
}
