package org.benchstroke.io.line;

import java.util.List;
import java.util.Optional;
import java.util.regex.Pattern;
import org.benchstroke.io.instrument.TextManner;

/**
 * How messages to an instrument look, and which replies mean that it refuses. Immutable.
 *
 * @param manner what ends them, and the pause between them
 * @param seal their check digits
 * @param errors patterns that are looked for in each reply; the group {@code code} names the error
 * @param atOpening commands that are sent whenever the connection has been opened
 * @param atOpeningReply what it answers to each of them; empty if nothing
 */
public record LineTalk(
    TextManner manner,
    Seal seal,
    List<Pattern> errors,
    List<String> atOpening,
    Optional<Pattern> atOpeningReply) {
  public LineTalk {
    errors = List.copyOf(errors);
    atOpening = List.copyOf(atOpening);
  }
}
