package org.benchstroke.speed;

import java.util.Locale;
import org.benchstroke.core.model.ModelParameters;
import org.benchstroke.core.model.UnitModel;

/** Steps of the simulated unit in a second, on one core, while it is kept moving. */
final class ModelSpeed {
  private static final int STEPS = 20_000_000;

  private ModelSpeed() {}

  static void run(Extent extent) {
    System.out.printf(
        Locale.ROOT,
        "%nSimulated unit%n| steps of 1 ms in a second | %.1f million |%n",
        stepsPerSecond(extent) / 1e6);
  }

  /** The best of some rounds. */
  static double stepsPerSecond(Extent extent) {
    int count = extent.of(STEPS, 100_000);
    steps(count / 4);
    double best = 0.0;
    for (int round = 0; round < 5; round++) {
      best = Math.max(best, steps(count));
    }
    return best;
  }

  private static double steps(int count) {
    UnitModel unit = new UnitModel(ModelParameters.baseline(), 1);
    unit.motorPower(true);
    long begin = System.nanoTime();
    for (int i = 0; i < count; i++) {
      if (i % 20_000 == 0) {
        unit.command(i % 40_000 == 0 ? 6.0 : 18.0);
      }
      unit.step();
    }
    return count * 1e9 / (System.nanoTime() - begin);
  }
}
