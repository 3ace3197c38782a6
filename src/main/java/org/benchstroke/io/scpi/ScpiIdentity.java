package org.benchstroke.io.scpi;

import java.util.Optional;
import org.benchstroke.io.instrument.Identity;

/** The reply to {@code *IDN?} (IEEE 488.2 10.14). Stateless. */
final class ScpiIdentity {
  private static final int FIELDS = 4;

  /** What IEEE 488.2 10.14 has an instrument answer that can't tell. */
  private static final String UNKNOWN = "0";

  private ScpiIdentity() {}

  /**
   * Four fields with commas between; spaces and quotes around a field, or around the whole, don't
   * matter, and a comma in the firmware is left there. Empty if there are fewer fields.
   */
  static Optional<Identity> parse(String raw) {
    String[] fields = unwrapped(raw).split(",", FIELDS);
    return fields.length < FIELDS
        ? Optional.empty()
        : Optional.of(
            new Identity(
                ScpiText.unquoted(fields[0]),
                ScpiText.unquoted(fields[1]),
                known(ScpiText.unquoted(fields[2])),
                known(ScpiText.unquoted(fields[3])),
                raw));
  }

  /** Takes quotes off the whole reply, but not those of its first and its last field. */
  private static String unwrapped(String raw) {
    String bare = raw.strip();
    boolean around = !bare.isEmpty() && bare.indexOf(bare.charAt(0), 1) == bare.length() - 1;
    return around ? ScpiText.unquoted(bare) : bare;
  }

  private static String known(String field) {
    return field.equals(UNKNOWN) ? "" : field;
  }
}
