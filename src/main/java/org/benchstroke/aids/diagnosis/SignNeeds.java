package org.benchstroke.aids.diagnosis;

import java.util.Optional;
import org.benchstroke.io.instrument.Role;
import org.benchstroke.unit.UnitType;

/**
 * By what a sign is shown: a test of the procedure, and the instrument that it needs. The durations
 * are strokes and seconds at rest, our estimates from the demo procedures.
 */
public enum SignNeeds {
  PREFLIGHT("preflight, with a loop meter", 0.0, 30.0, Optional.of(Role.LOOP_METER)),
  STROKES("stroke time", 2.0, 20.0, Optional.empty()),
  STROKES_WITH_STEM(
      "stroke time with an angle reference", 2.0, 20.0, Optional.of(Role.ANGLE_REFERENCE)),
  SUPPLY("supply, with a supply meter", 2.0, 20.0, Optional.of(Role.SUPPLY_METER)),
  STEPS("step response, 10 % up and down", 0.4, 40.0, Optional.empty()),
  DEAD_BAND("dead band at 50 %", 0.4, 120.0, Optional.empty()),
  SWITCHES("switches", 2.0, 60.0, Optional.of(Role.SWITCHES)),
  TRAVEL("travel error at five points", 2.0, 60.0, Optional.empty()),
  TRAVEL_WITH_STEM(
      "travel error with an angle reference", 2.0, 60.0, Optional.of(Role.ANGLE_REFERENCE)),
  LOSSES("signal loss", 3.0, 60.0, Optional.empty()),
  HOLDS("hunting at five points", 2.0, 300.0, Optional.empty());

  private final String words;
  private final double strokes;
  private final double restSeconds;
  private final Optional<Role> needs;

  @SuppressWarnings("ImmutableEnumChecker") // an Optional of an enum never changes
  SignNeeds(String words, double strokes, double restSeconds, Optional<Role> needs) {
    this.words = words;
    this.strokes = strokes;
    this.restSeconds = restSeconds;
    this.needs = needs;
  }

  /** The test, as procedures name it. */
  public String words() {
    return words;
  }

  /** The role that must be played for it. */
  public Optional<Role> needs() {
    return needs;
  }

  /** How long it takes about on that type, s. */
  public double seconds(UnitType unit) {
    return strokes * unit.strokeSeconds() + restSeconds;
  }
}
