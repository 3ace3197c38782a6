package org.benchstroke.core.analysis;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.OptionalDouble;
import java.util.SplittableRandom;
import java.util.function.DoubleUnaryOperator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Readings every 0.1 s of strokes up and down of 15 s each, with rests in between. */
class ConversionTest {
  private static final double PERIOD = 0.1;
  private static final double MARGIN = 0.12;

  @ParameterizedTest
  @CsvSource({"0.13, 0", "0.15, 0", "0.2, 0", "0.3, 0", "0.5, 0", "0.8, 0"})
  @CsvSource({"0.15, 0.2", "0.2, 0.2", "0.3, 0.2", "0.5, 0.2"})
  void aSteadyRateIsFound(double every, double uneven) {
    for (int seed = 0; seed < 20; seed++) {
      OptionalDouble found = Conversion.of(read(shown(every, uneven, seed)));
      assertThat(found).as("seed %d", seed).isPresent();
      assertThat(found.getAsDouble()).as("seed %d", seed).isCloseTo(every, within(MARGIN * every));
    }
  }

  @ParameterizedTest
  @ValueSource(doubles = {0.001, 0.05, 0.09, 0.1})
  void oneThatIsQuickEnoughHasNone(double every) {
    assertThat(Conversion.of(read(shown(every, 0.0, 1)))).isEmpty();
  }

  @Test
  void aUnitThatStandsOrReadsInCoarseStepsIsNoSlowInput() {
    assertThat(Conversion.of(read(t -> 50.0))).isEmpty();
    // 1 % a step at 6.7 %/s: each value stands for 0.15 s.
    assertThat(Conversion.of(read(t -> Math.rint(stroke(t))))).isEmpty();
    // A slow unit in fine steps.
    assertThat(Conversion.of(read(t -> Math.rint(stroke(t / 20.0) / 0.1) * 0.1))).isEmpty();
  }

  /** A link that froze once, or a dead spot that holds its last value at one place. */
  @ParameterizedTest
  @ValueSource(doubles = {0.3, 0.5, 0.9, 3.0})
  void oneFreezeInAStrokeIsNoRate(double frozen) {
    DoubleUnaryOperator once = t -> stroke(t % 40.0 > 7.0 && t % 40.0 < 7.0 + frozen ? 7.0 : t);
    assertThat(Conversion.of(read(once))).isEmpty();
  }

  private static double stroke(double t) {
    double at = t % 40.0;
    return Math.min(100.0, Math.max(0.0, at < 20.0 ? at / 0.15 : 100.0 - (at - 20.0) / 0.15));
  }

  private static DoubleUnaryOperator shown(double every, double uneven, int seed) {
    SplittableRandom random = new SplittableRandom(seed);
    double[] due = new double[(int) (81.0 / every) + 2];
    double phase = random.nextDouble() * every;
    for (int i = 0; i < due.length; i++) {
      due[i] = (i - 1) * every + phase + (random.nextDouble() - 0.5) * 2.0 * uneven * every;
    }
    return t -> {
      int i = 0;
      while (i + 1 < due.length && due[i + 1] <= t) {
        i++;
      }
      return stroke(Math.max(0.0, due[i]));
    };
  }

  private static Trace read(DoubleUnaryOperator shown) {
    Trace.Builder trace = Trace.builder(800);
    for (int i = 0; i < 800; i++) {
      trace.add(i * PERIOD, 0.001, shown.applyAsDouble(i * PERIOD), false);
    }
    return trace.build();
  }
}
