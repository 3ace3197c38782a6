package org.benchstroke.setup;

import java.util.EnumSet;
import java.util.Set;
import org.benchstroke.bench.BenchFile;
import org.benchstroke.bench.InstrumentSpec;
import org.benchstroke.io.instrument.LimitSwitch;
import org.benchstroke.io.instrument.Role;

/**
 * What a bench can see and do while a unit is set up; what it can't, a person does by ear and eye.
 *
 * @param angle whether an instrument reads the stem's angle
 * @param position whether one reads the unit's own feedback
 * @param switches whether an instrument watches the switches
 * @param relay whether a relay switches the motor supply
 * @param sourceByHand whether a person sets the source
 */
record Sight(
    boolean angle, boolean position, boolean switches, boolean relay, boolean sourceByHand) {
  static Sight of(BenchFile bench) {
    return new Sight(
        reads(bench, Role.ANGLE_REFERENCE),
        reads(bench, Role.POSITION_TRANSMITTER),
        reads(bench, Role.SWITCHES),
        reads(bench, Role.MOTOR_POWER),
        bench.playing(Role.SIGNAL_SOURCE).map(InstrumentSpec::typedIn).orElse(false));
  }

  private static boolean reads(BenchFile bench, Role role) {
    return bench.playing(role).filter(spec -> !spec.typedIn()).isPresent();
  }

  /** The end switches that every motorised unit has. */
  static Set<LimitSwitch> ends() {
    return EnumSet.of(LimitSwitch.CLOSED, LimitSwitch.OPEN);
  }
}
