package org.benchstroke.record;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.time.DateTimeException;
import java.time.Instant;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class UtcStampsTest {
  @Test
  void readsWhatAnInstantWritesInAnyOrder() {
    UtcStamps stamps = new UtcStamps();
    Random random = new Random(7);
    Instant begin = Instant.parse("2026-12-31T23:59:58Z");
    for (int i = 0; i < 2000; i++) {
      long unit = (long) Math.pow(10.0, random.nextInt(10));
      Instant at = begin.plusNanos(random.nextLong(4_000_000_000L) / unit * unit);
      assertThat(stamps.read(at.toString())).isEqualTo(at);
    }
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "2026-06-01T08:00:00Z",
        "2026-06-01T08:00:00.5Z",
        "-0001-06-01T08:00:00.25Z",
        "+12026-06-01T08:00:00.25Z",
        "2026-06-01T08:00:00.Z"
      })
  void readsWhatAnInstantReads(String text) {
    assertThat(new UtcStamps().read(text)).isEqualTo(Instant.parse(text));
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "",
        "now",
        "2026-06-01T08:00Z",
        "2026-06-01T08:00:00.1",
        "2026-06-01T08:00:00.1x3Z",
        "2026-06-31T08:00:00.1Z",
        "2026-06-01T08:00:00.1234567890Z",
        ".2026-06-01T08:00:0.1Z"
      })
  void refusesWhatIsNoInstant(String text) {
    UtcStamps stamps = new UtcStamps();
    assertThat(stamps.read("2026-06-01T08:00:00.1Z")).isNotNull();
    assertThatThrownBy(() -> stamps.read(text)).isInstanceOf(DateTimeException.class);
    assertThatThrownBy(() -> new UtcStamps().read(text)).isInstanceOf(DateTimeException.class);
  }
}
