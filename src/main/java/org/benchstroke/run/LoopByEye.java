package org.benchstroke.run;

import java.util.Map;
import org.benchstroke.core.quantity.Current;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.io.instrument.Role;

/**
 * Has the loop's current read by a person from a meter without a port, before anything moves. While
 * the unit is tested nobody reads it, and the record says so. The runner's thread only.
 */
final class LoopByEye {
  /** What a person can read where the meter's range is not stated, either polarity, mA. */
  private static final double BELIEVED_MILLIAMPS = 30.0;

  private final Eye eye;
  private final String operatorName;

  LoopByEye(Eye eye, RunPlan plan) {
    this.eye = eye;
    this.operatorName = plan.operator();
  }

  /**
   * Asks, and writes what was typed.
   *
   * @param set what the source was set to
   * @throws RunEnded if nobody reads
   */
  Current read(Current set) throws RunEnded {
    String point = "source at " + set;
    return Current.ofMilliamps(
        eye.read(
            "loop",
            Role.LOOP_METER,
            "loop current",
            point,
            -BELIEVED_MILLIAMPS,
            BELIEVED_MILLIAMPS));
  }

  /** Notes who reads the loop, how finely, and when nobody does. */
  void note(CheckList checks) {
    double half = eye.channel(Role.LOOP_METER).resolution() / 2.0;
    checks.warn(
        "loop during the tests",
        "\""
            + eye.spec().name()
            + "\" is read by eye, typed in by "
            + operatorName
            + " before motion only: its step gives ± "
            + Numbers.plain(half)
            + " mA (rectangular), and the loop's current is not measured during the tests",
        Map.of("half_step_milliamps", half));
  }
}
