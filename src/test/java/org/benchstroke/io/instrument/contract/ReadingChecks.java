package org.benchstroke.io.instrument.contract;

import static org.assertj.core.api.Assertions.assertThat;

import org.benchstroke.core.clock.BenchClock;
import org.benchstroke.io.instrument.Reading;

/** What is true of every reading. */
final class ReadingChecks {
  private ReadingChecks() {}

  static void isStampedSince(Reading<?> reading, long before, BenchClock clock) {
    assertThat(reading.askedNanos()).isGreaterThanOrEqualTo(before);
    assertThat(reading.answeredNanos()).isGreaterThan(reading.askedNanos());
    assertThat(reading.answeredNanos()).isLessThanOrEqualTo(clock.nanos());
    assertThat(reading.raw()).isNotEmpty();
  }
}
