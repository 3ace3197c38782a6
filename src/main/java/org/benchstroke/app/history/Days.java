package org.benchstroke.app.history;

import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.time.format.DateTimeParseException;
import java.util.Optional;
import org.benchstroke.app.WrongRequest;

/** Days that a person names, by UTC as in the records; each mistake names its field. Stateless. */
public final class Days {
  private Days() {}

  /**
   * One that was named.
   *
   * @throws WrongRequest if it is none
   */
  public static LocalDate day(String option, String text) throws WrongRequest {
    try {
      return LocalDate.parse(text.strip());
    } catch (DateTimeParseException e) {
      throw new WrongRequest(
          option + ": found \"" + text + "\", allowed is a day as YYYY-MM-DD, 2026-06-01");
    }
  }

  /** Its beginning, if one was named. */
  public static Optional<Instant> from(String option, Optional<String> text) throws WrongRequest {
    return text.isEmpty() ? Optional.empty() : Optional.of(begin(day(option, text.get())));
  }

  /** Its end, if one was named. */
  public static Optional<Instant> before(String option, Optional<String> text) throws WrongRequest {
    return text.isEmpty()
        ? Optional.empty()
        : Optional.of(begin(day(option, text.get()).plusDays(1)));
  }

  private static Instant begin(LocalDate day) {
    return day.atStartOfDay().toInstant(ZoneOffset.UTC);
  }
}
