package org.benchstroke.core.analysis;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Map;
import java.util.Random;
import java.util.TreeMap;
import org.benchstroke.core.analysis.StepShape.Parameter;
import org.benchstroke.core.analysis.SteppedUnit.Kind;
import org.junit.jupiter.api.Test;

/** The shape of a step response is found, with its parameters; all from seeds. */
class StepShapeTest {
  private static final PositionNoise QUIET = new PositionNoise(0.0, 0.0);

  @Test
  void theShapeIsFoundAndItsParametersAreNearTheTruth() {
    Map<Kind, int[]> found = new TreeMap<>();
    Map<String, int[]> held = new TreeMap<>();
    for (Kind kind : Kind.values()) {
      for (long seed = 0; seed < 100; seed++) {
        Random random = new Random(seed * 3 + kind.name().length());
        SteppedUnit unit = SteppedUnit.random(kind, random);
        Trace trace = unit.read(random);
        Step step = unit.step(Math.max(0.02 * unit.change(), 6.0 * unit.noise().standard()));
        StepShape shape = StepShape.of(trace, step, StepResponse.of(trace, step));
        if (shape.fits().isEmpty()) {
          continue;
        }
        StepShape.Fit best = shape.best().orElseThrow();
        int[] count = found.computeIfAbsent(kind, k -> new int[2]);
        count[1]++;
        boolean right = best.kind().name().equals(kind.name());
        count[0] += right ? 1 : 0;
        if (right) {
          truths(unit)
              .forEach((name, truth) -> tally(held, best.parameter(name).orElseThrow(), truth));
        }
      }
    }
    assertThat(found).hasSize(3);
    found.forEach((kind, c) -> assertThat(c[1]).as(kind + " fitted").isGreaterThan(90));
    found.forEach((kind, c) -> assertThat(c[0]).as(kind.name()).isGreaterThan(c[1] * 9 / 10));
    assertThat(held).hasSize(5);
    // From coarse roundings and stamps the covariance knows less than the truth: 85 to 97 of 100.
    held.forEach((name, c) -> assertThat(c[0]).as(name).isGreaterThan(c[1] * 17 / 20));
  }

  private static Map<String, Double> truths(SteppedUnit unit) {
    return switch (unit.kind()) {
      case CONSTANT_SPEED -> Map.of("dead time", unit.deadSeconds(), "speed", unit.speed());
      case FIRST_ORDER -> Map.of("dead time", unit.deadSeconds(), "time constant", unit.tau());
      case SECOND_ORDER -> Map.of("damping ratio", unit.zeta(), "natural frequency", unit.omega());
    };
  }

  private static void tally(Map<String, int[]> held, Parameter parameter, double truth) {
    int[] count = held.computeIfAbsent(parameter.name(), k -> new int[2]);
    count[1]++;
    count[0] += Math.abs(parameter.value() - truth) <= 2.0 * parameter.standard() ? 1 : 0;
  }

  @Test
  void whatNoShapeExplainsIsSaid() {
    // It stops half way for a second, then goes on.
    Trace.Builder trace = Trace.builder(400);
    for (int i = -40; i < 300; i++) {
      double t = i * 0.02;
      double gone = Math.min(Math.max(0.0, t - 0.3), 0.8) + Math.max(0.0, Math.min(0.8, t - 2.1));
      trace.add(t, 0.001, 50.0 + gone * 6.0, false);
    }
    Trace built = trace.build();
    Step step = new Step(0.0, 0.0, 50.0, 59.6, 0.2, QUIET, 0.1);
    StepShape shape = StepShape.of(built, step, StepResponse.of(built, step));
    assertThat(shape.explained()).isFalse();
    assertThat(shape.best()).isPresent();
    assertThat(shape.reason()).startsWith("not explained: ").contains("comes nearest and leaves");
  }

  @Test
  void withoutAResponseThereIsNoShape() {
    Trace.Builder trace = Trace.builder(400);
    for (int i = -40; i < 300; i++) {
      trace.add(i * 0.02, 0.001, 50.0, false);
    }
    Trace built = trace.build();
    Step step = new Step(0.0, 0.0, 50.0, 60.0, 0.2, QUIET, 0.1);
    StepShape shape = StepShape.of(built, step, StepResponse.of(built, step));
    assertThat(shape.fits()).isEmpty();
    assertThat(shape.explained()).isFalse();
    assertThat(shape.reason()).isEqualTo("it did not move");
  }
}
