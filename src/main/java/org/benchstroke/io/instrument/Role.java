package org.benchstroke.io.instrument;

import java.util.Arrays;
import java.util.Optional;

/** What an instrument does on a bench. One instrument may play several roles. */
public enum Role {
  SIGNAL_SOURCE("signal source"),
  LOOP_METER("loop meter"),
  POSITION_TRANSMITTER("position transmitter"),
  ANGLE_REFERENCE("angle reference"),
  SWITCHES("switches"),
  MOTOR_POWER("motor power"),
  SUPPLY_METER("supply meter");

  private final String key;

  Role(String key) {
    this.key = key;
  }

  /** The word for it in files and on screens. */
  public String key() {
    return key;
  }

  /** Its name as a table of a file: "signal_source". */
  public String table() {
    return key.replace(' ', '_');
  }

  public static Optional<Role> ofKey(String key) {
    return Arrays.stream(values()).filter(r -> r.key.equals(key)).findFirst();
  }
}
