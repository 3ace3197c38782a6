package org.benchstroke.papers.plot;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Random;
import org.benchstroke.papers.plot.Decimation.Sample;
import org.junit.jupiter.api.Test;

class DecimationTest {
  @Test
  void everyColumnKeepsItsFirstSmallestLargestAndLastSample() {
    List<Sample> run = noise(20_000);
    List<Sample> thin = Decimation.thin(run, 10.0);
    assertThat(thin).hasSizeLessThanOrEqualTo(4 * 201);
    assertThat(thin).isSortedAccordingTo(Comparator.comparingDouble(Sample::seconds));
    assertThat(run).containsAll(thin);
    for (int column = 0; column <= 200; column++) {
      List<Sample> all = in(run, column);
      List<Sample> kept = in(thin, column);
      assertThat(smallest(kept)).isEqualTo(smallest(all));
      assertThat(smallest(reversed(kept))).isEqualTo(smallest(reversed(all)));
      if (!all.isEmpty()) {
        assertThat(kept.get(0)).isEqualTo(all.get(0));
        assertThat(kept.get(kept.size() - 1)).isEqualTo(all.get(all.size() - 1));
      }
    }
  }

  @Test
  void aSingleSpikeSurvives() {
    List<Sample> run = new ArrayList<>();
    for (int i = 0; i < 5000; i++) {
      run.add(new Sample(i * 0.1, i == 3217 ? 62.0 : 50.0, false));
    }
    assertThat(Decimation.thin(run, 5.0)).contains(new Sample(3217 * 0.1, 62.0, false));
  }

  @Test
  void aGapEndsARun() {
    List<Sample> samples = List.of(at(0.0), at(0.1), at(0.2), at(0.6), at(0.7), at(5.0));
    assertThat(Decimation.unbroken(samples, 0.3))
        .containsExactly(
            List.of(at(0.0), at(0.1), at(0.2)), List.of(at(0.6), at(0.7)), List.of(at(5.0)));
  }

  @Test
  void nothingStaysNothing() {
    assertThat(Decimation.unbroken(List.of(), 0.3)).isEmpty();
    assertThat(Decimation.thin(List.of(), 1.0)).isEmpty();
  }

  private static Sample at(double seconds) {
    return new Sample(seconds, 50.0, false);
  }

  private static List<Sample> noise(int count) {
    Random random = new Random(5);
    List<Sample> samples = new ArrayList<>();
    for (int i = 0; i < count; i++) {
      samples.add(new Sample(i * 0.1, random.nextGaussian(), false));
    }
    return samples;
  }

  private static List<Sample> in(List<Sample> samples, int column) {
    return samples.stream().filter(s -> (int) Math.floor(s.seconds() / 10.0) == column).toList();
  }

  private static List<Sample> reversed(List<Sample> samples) {
    return samples.stream().map(s -> new Sample(s.seconds(), -s.value(), false)).toList();
  }

  private static double smallest(List<Sample> samples) {
    return samples.stream().mapToDouble(Sample::value).min().orElse(0.0);
  }
}
