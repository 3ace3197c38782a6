package org.benchstroke.aids.twin;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.benchstroke.core.model.Noise;
import org.junit.jupiter.api.Test;

/** Made-up stops whose middle is known. */
class EvenStopsTest {
  private static final int RUNS = 200;
  private static final double LEAD = 0.03;
  private static final double WIDTH = 0.2;
  private static final double NOISE = 0.005;

  /** Even within one look, both ways, over an offset and a slope. */
  private static List<Stops.Rest> rests(int count, Noise noise) {
    List<Stops.Rest> rests = new ArrayList<>();
    for (int i = 0; i < count; i++) {
      int sign = i % 2 == 0 ? 1 : -1;
      double to = 50.0 + 40.0 * noise.symmetric();
      double share = (to - 50.0) / 50.0;
      double even = LEAD + 0.5 * WIDTH * noise.symmetric();
      double error = 0.1 + 0.05 * share + sign * even + 0.7 * NOISE * noise.normal();
      rests.add(new Stops.Rest(to, sign, error));
    }
    return rests;
  }

  private static Optional<EvenStops> middle(List<Stops.Rest> rests) {
    return EvenStops.of(rests, new double[] {0.1, 0.04, 0.05}, WIDTH / Math.sqrt(12.0), NOISE);
  }

  /** The mean of 140 would be known to w/√(12·140) = 0.0049 %. */
  @Test
  void theEndsTellTheMiddleBetterThanTheMean() {
    double squares = 0.0;
    int covered = 0;
    for (int seed = 1; seed <= RUNS; seed++) {
      EvenStops found = middle(rests(140, new Noise(seed))).orElseThrow();
      double off = found.lead() - LEAD;
      squares += off * off;
      covered += Math.abs(off) <= 2.45 * found.standard() ? 1 : 0;
      assertThat(found.slope()).isBetween(0.03, 0.07);
    }
    assertThat(Math.sqrt(squares / RUNS)).isLessThan(0.0025);
    assertThat(covered).isBetween(165, 195);
  }

  @Test
  void aFewStopsDoNotShowTheEnds() {
    assertThat(middle(rests(59, new Noise(1)))).isEmpty();
  }
}
