package org.benchstroke.io.scpi;

import java.util.List;
import java.util.Optional;
import java.util.regex.Pattern;

/**
 * The status byte and the oldest entry of the error queue, as one compound question gets them.
 *
 * <p>Source: IEEE 488.2 10.36 and 11.2 (status byte), SCPI-1999 Volume 1, 9.1 (bit 2), from memory.
 *
 * @param register the byte, 0..255, as it stood before the entry was taken out
 * @param error the entry
 */
record ScpiStatus(int register, ScpiError error) {
  /** The leading colon goes back to the root after a common command or not: it does no harm. */
  static final String QUESTION = "*STB?;:SYSTem:ERRor?";

  private static final Pattern REGISTER = Pattern.compile("\\+?\\d{1,3}");
  private static final int LARGEST_REGISTER = 255;
  private static final int ERROR_QUEUE = 0x04;
  private static final int EVENT_SUMMARY = 0x20;

  /** Empty if the reply is not a register and an entry. */
  static Optional<ScpiStatus> parse(String reply) {
    List<String> answers = ScpiText.answers(reply);
    if (answers.size() != 2) {
      return Optional.empty();
    }
    Optional<Integer> register = register(answers.get(0));
    Optional<ScpiError> error = ScpiError.parse(answers.get(1));
    return register.isPresent() && error.isPresent()
        ? Optional.of(new ScpiStatus(register.get(), error.get()))
        : Optional.empty();
  }

  /** A register of eight bits; empty if the text is none. */
  static Optional<Integer> register(String text) {
    return REGISTER.matcher(text).matches() && Integer.parseInt(text) <= LARGEST_REGISTER
        ? Optional.of(Integer.valueOf(text))
        : Optional.empty();
  }

  /** Whether the byte says that there are entries in the error queue. */
  boolean queued() {
    return (register & ERROR_QUEUE) != 0;
  }

  /** Whether the byte says that there is an event that was enabled: one of the errors. */
  boolean events() {
    return (register & EVENT_SUMMARY) != 0;
  }

  boolean quiet() {
    return error.none() && !queued() && !events();
  }
}
