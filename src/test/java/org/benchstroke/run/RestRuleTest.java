package org.benchstroke.run;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.nio.file.Path;
import java.util.Optional;
import java.util.function.DoubleUnaryOperator;
import org.benchstroke.core.analysis.RestRule;
import org.benchstroke.core.model.Noise;
import org.benchstroke.core.toml.FileMistakes;
import org.benchstroke.unit.UnitType;
import org.benchstroke.unit.UnitTypeReader;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * False rest and missed rest, over seeds. The unit's window is 2 s; samples come every 0.1 s, so a
 * window has 21 readings. The shares are those that docs/explanation/rest-rule.md states.
 */
class RestRuleTest {
  private static final Path UNIT = Path.of("demo-data/unit-types/quarter-turn-15s.toml");
  private static final double PERIOD = 0.1;
  private static final double WINDOW = 2.0;
  private static final int READINGS = 21;
  private static final double SIGMA = 0.05;
  private static final int SEEDS = 200;

  private final UnitType unit = unit();

  private static UnitType unit() {
    try {
      return UnitTypeReader.read(UNIT);
    } catch (FileMistakes e) {
      throw new IllegalStateException(e.getMessage(), e);
    }
  }

  private RestRule rule(double period, double noisePercent) {
    return new RestRule(
        unit.practice().restSamples(),
        unit.restWindowSeconds(period),
        unit.practice().restBandPercent(),
        period,
        noisePercent);
  }

  /**
   * One window of a creep under noise, which moves by so many limits within it. Source: the
   * distribution of the range of a normal sample on a slope, computed for the page by simulation
   * (400 000 windows, another generator); nothing published.
   */
  @ParameterizedTest
  @CsvSource({"0.0, 0.989", "0.5, 0.80", "0.75, 0.37", "1.0, 0.050", "1.25, 0.0010", "1.5, 0.0"})
  void theShareOfWindowsThatPassForRestIsTheStatedOne(double limits, double share) {
    RestRule rule = rule(PERIOD, SIGMA);
    double speed = limits * rule.limitPercent() / WINDOW;
    Noise noise = new Noise(20260601);
    int windows = 20_000;
    int passed = 0;
    for (int i = 0; i < windows; i++) {
      rule.restart();
      Optional<RestRule.Window> window = Optional.empty();
      for (int j = 0; j < READINGS; j++) {
        window = rule.add(nanos(j), speed * j * PERIOD + SIGMA * noise.normal());
      }
      passed += window.isPresent() ? 1 : 0;
    }
    double standard = Math.sqrt(share * (1 - share) / windows);
    assertThat(passed / (double) windows).isCloseTo(share, within(4 * standard + 0.003));
  }

  /** Rest is found, and its mean is where the unit stands. */
  @Test
  void noiseAloneIsRestSoon() {
    for (long seed = 1; seed <= SEEDS; seed++) {
      Noise noise = new Noise(seed);
      RestRule rule = rule(PERIOD, SIGMA);
      Optional<RestRule.Window> found = first(rule, 6.0, t -> 50.0 + SIGMA * noise.normal());
      assertThat(found).as("seed %d", seed).isPresent();
      RestRule.Window window = found.orElseThrow();
      assertThat(window.toNanos() - window.fromNanos()).isGreaterThanOrEqualTo(nanos(20));
      assertThat(window.meanPercent()).isCloseTo(50.0, within(5 * SIGMA / Math.sqrt(READINGS)));
    }
  }

  /** A window that any of the creep reaches into is seen through, if only the end is quiet. */
  @ParameterizedTest
  @ValueSource(doubles = {0.0, 0.01, 0.05})
  void aSlowCreepIsNotRestBeforeItEnds(double sigma) {
    for (long seed = 1; seed <= SEEDS; seed++) {
      Noise noise = new Noise(seed);
      RestRule rule = rule(PERIOD, sigma);
      double limit = rule.limitPercent();
      double speed = 2.0 * limit / WINDOW;
      double ends = 20.0 + 5.0 * noise.symmetric();
      Optional<RestRule.Window> found =
          first(rule, 40.0, t -> speed * Math.min(t, ends) + sigma * noise.normal());
      assertThat(found).as("seed %d", seed).isPresent();
      // Twice the limit a window: less than one of it may have been in motion.
      double from = found.orElseThrow().fromNanos() / 1e9;
      assertThat(from).as("seed %d", seed).isGreaterThan(ends - WINDOW);
      assertThat(found.orElseThrow().meanPercent())
          .as("seed %d", seed)
          .isCloseTo(speed * ends, within(limit));
    }
  }

  /**
   * A register's step can hide as much of a creep again: what passes moves by less than the limit
   * and one step within the window, whatever the phase.
   */
  @ParameterizedTest
  @ValueSource(doubles = {0.005, 0.02, 0.04})
  void aStaircaseCreepIsNotRest(double step) {
    for (long seed = 1; seed <= SEEDS; seed++) {
      Noise noise = new Noise(seed);
      RestRule rule = rule(PERIOD, 0.0);
      double phase = step * noise.symmetric();
      double speed = 1.05 * (rule.limitPercent() + step) / WINDOW;
      assertThat(first(rule, 30.0, t -> Math.floor((speed * t + phase) / step) * step))
          .as("seed %d", seed)
          .isEmpty();
    }
  }

  /** Corrective pulses, further apart than the controller's pause, in steps of the register. */
  @Test
  void pulsesThatGoOnAreNotRest() {
    for (long seed = 1; seed <= SEEDS; seed++) {
      Noise noise = new Noise(seed);
      RestRule rule = rule(PERIOD, 0.0);
      double apart = 1.0 + 0.8 * noise.symmetric();
      double ends = 20.0 + 2.0 * noise.symmetric();
      Optional<RestRule.Window> found =
          first(
              rule,
              40.0,
              t -> Math.rint(0.08 * Math.floor(Math.min(t, ends) / apart) / 0.02) * 0.02);
      assertThat(found).as("seed %d", seed).isPresent();
      double last = Math.floor(ends / apart) * apart;
      assertThat(found.orElseThrow().fromNanos() / 1e9)
          .as("seed %d", seed)
          .isGreaterThan(last - PERIOD / 2);
    }
  }

  @Test
  void aRestartForgetsTheRestOfBefore() {
    RestRule rule = rule(PERIOD, 0.0);
    assertThat(first(rule, 3.0, t -> 50.0)).isPresent();
    rule.restart();
    assertThat(rule.add(nanos(40), 50.0)).isEmpty();
  }

  /** A gap makes a window long, but no reading takes another's place. */
  @Test
  void fewReadingsAreNotRestHoweverLongTheyTook() {
    RestRule rule = rule(PERIOD, 0.0);
    for (int i = 0; i < unit.practice().restSamples() - 1; i++) {
      assertThat(rule.add(nanos(50 * i), 50.0)).isEmpty();
    }
    assertThat(rule.add(nanos(1000), 50.0)).isPresent();
  }

  @Test
  void aValueThatNeverChangesByItsLastBitIsFrozen() {
    RestRule rule = rule(PERIOD, SIGMA);
    assertThat(first(rule, 3.0, t -> 50.0)).isPresent();
    assertThat(rule.frozen()).isTrue();
    rule.add(nanos(40), 50.0 + 1e-9);
    assertThat(rule.frozen()).isFalse();
  }

  private static Optional<RestRule.Window> first(
      RestRule rule, double seconds, DoubleUnaryOperator percentAt) {
    for (int i = 0; i * PERIOD <= seconds; i++) {
      Optional<RestRule.Window> window = rule.add(nanos(i), percentAt.applyAsDouble(i * PERIOD));
      if (window.isPresent()) {
        return window;
      }
    }
    return Optional.empty();
  }

  private static long nanos(int sample) {
    return Math.round(sample * PERIOD * 1e9);
  }
}
