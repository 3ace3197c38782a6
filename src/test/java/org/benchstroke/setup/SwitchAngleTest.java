package org.benchstroke.setup;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import org.benchstroke.bench.BenchFile;
import org.benchstroke.bench.BenchFileReader;
import org.benchstroke.core.quantity.Angle;
import org.benchstroke.core.toml.FileMistakes;
import org.benchstroke.core.uncertainty.Component;
import org.benchstroke.io.instrument.Doubt;
import org.benchstroke.io.instrument.LimitSwitch;
import org.benchstroke.io.instrument.Reading;
import org.junit.jupiter.api.Test;

class SwitchAngleTest {
  private static final long MILLI = 1_000_000L;
  private static final LocalDate DAY = LocalDate.of(2026, 6, 1);

  private final SwitchAngle angles = new SwitchAngle(bench(), DAY);

  private static BenchFile bench() {
    try {
      return BenchFileReader.read(Path.of("demo-data/benches/type-test-bench.toml"));
    } catch (FileMistakes e) {
      throw new IllegalStateException(e.getMessage(), e);
    }
  }

  /** A look whose angle takes 2 ms from an instant on, and whose switches take the next 2 ms. */
  private static Look look(double degrees, boolean made, long atMillis) {
    return new Look(
        Optional.of(reading(Angle.ofDegrees(degrees), atMillis)),
        Optional.of(reading(Map.of(LimitSwitch.CLOSED, made), atMillis + 2)),
        Optional.empty());
  }

  private static <T> Reading<T> reading(T value, long atMillis) {
    return new Reading<>(value, Doubt.NONE, "", atMillis * MILLI, (atMillis + 2) * MILLI);
  }

  /**
   * By hand, with JCGM 100:2008 4.3.7 (u = a/√3) and 5.1.2: the stem turns 3 °/s towards closed and
   * is looked at every 50 ms. Between both looks at the switch it turns 0.15°, so a = 0.075°, and
   * the change is at the middle of that. 1 ms of each transaction is 0.003°, 5 ms of bounce 0.015°.
   */
  @Test
  void workedByHand() {
    SwitchAngle.Found found =
        angles.between(look(0.300, false, 0), look(0.150, true, 50), look(0.0, true, 100), true);
    // The switch is read 2 ms after the angle: 0.294° and 0.144°.
    assertThat(found.edge().degrees()).isCloseTo(0.219, within(1e-9));
    assertThat(found.edge().halfDegrees()).isCloseTo(0.075, within(1e-9));
    assertThat(found.edge().degreesPerSecond()).isCloseTo(3.0, within(1e-9));
    double own =
        found.components().stream()
            .limit(4)
            .mapToDouble(Component::contribution)
            .map(c -> c * c)
            .sum();
    double byHand = (0.075 * 0.075 + 2 * 0.003 * 0.003 + 0.015 * 0.015) / 3.0;
    assertThat(Math.sqrt(own)).isCloseTo(Math.sqrt(byHand), within(1e-12));
  }

  /**
   * Drawn truth: a switch at a drawn angle, hands at drawn speeds that change meanwhile, a
   * reference off by a drawn share of what its file bounds, a bounce. U must hold the truth in 95
   * of 100; it is made of bounds, so it may hold it more often.
   */
  @Test
  void holdsTheTruthOftenEnough() {
    Random random = new Random(7);
    int held = 0;
    int all = 0;
    for (int i = 0; i < 2000; i++) {
      double speed = 0.3 + 8.0 * random.nextDouble();
      double change = (random.nextDouble() - 0.5) * 8.0;
      double truth = 1.0 + random.nextDouble();
      double off = 0.05 * (2.0 * random.nextDouble() - 1.0);
      Optional<SwitchAngle.Found> found = drawn(random, truth, speed, change, off);
      if (found.isPresent()) {
        Edge edge = found.get().edge();
        all++;
        held += Math.abs(edge.degrees() - truth) <= edge.expandedDegrees() ? 1 : 0;
      }
    }
    assertThat(all).isGreaterThan(1500);
    assertThat(held / (double) all).isBetween(0.95, 1.0);
  }

  /** Turning towards closed from 3°, at s, which changes by c a second. */
  private Optional<SwitchAngle.Found> drawn(
      Random random, double truth, double speed, double change, double off) {
    List<Look> looks = new ArrayList<>();
    double made = Double.NaN;
    for (int k = 0; k < 200; k++) {
      double asked = 50.0 * k + random.nextDouble();
      double whenAngle = asked / 1e3 + 0.002 * random.nextDouble();
      double whenSwitch = asked / 1e3 + 0.002 + 0.002 * random.nextDouble();
      double angle = at(whenAngle, speed, change);
      boolean tripped = at(whenSwitch, speed, change) <= truth;
      made = tripped && Double.isNaN(made) ? whenSwitch : made;
      boolean bounces = tripped && random.nextInt(20) == 0 && whenSwitch - made < 0.003;
      long nanos = Math.round(asked * MILLI);
      looks.add(
          new Look(
              Optional.of(
                  new Reading<>(
                      Angle.ofDegrees(Math.round((angle + off) * 1000.0) / 1000.0),
                      Doubt.NONE,
                      "",
                      nanos,
                      nanos + 2 * MILLI)),
              Optional.of(
                  new Reading<>(
                      Map.of(LimitSwitch.CLOSED, tripped && !bounces),
                      Doubt.NONE,
                      "",
                      nanos + 2 * MILLI,
                      nanos + 4 * MILLI)),
              Optional.empty()));
      int n = looks.size();
      if (n > 2 && looks.get(n - 2).made(LimitSwitch.CLOSED).orElseThrow()) {
        return n < 4
            ? Optional.empty()
            : Optional.of(
                angles.between(looks.get(n - 3), looks.get(n - 2), looks.get(n - 1), true));
      }
    }
    return Optional.empty();
  }

  private static double at(double seconds, double speed, double change) {
    double turning = change < 0 ? Math.min(seconds, 0.9 * speed / -change) : seconds;
    return 3.0
        - speed * turning
        - change * turning * turning / 2.0
        - 0.1 * speed * (seconds - turning);
  }

  @Test
  void ofADifferenceWhatBothHaveInCommonOfTheReferenceIsNotCountedTwiceAsIndependent() {
    SwitchAngle.Found end =
        angles.between(look(0.1, false, 0), look(0.0, true, 50), look(-0.1, true, 100), true);
    SwitchAngle.Found auxiliary =
        angles.between(look(2.1, false, 0), look(2.0, true, 50), look(1.9, true, 100), true);
    double u = angles.difference(auxiliary, end).expand().half();
    assertThat(u).isGreaterThan(end.edge().expandedDegrees());
    assertThat(u).isLessThanOrEqualTo(2.0 * end.edge().expandedDegrees() + 1e-9);
  }
}
