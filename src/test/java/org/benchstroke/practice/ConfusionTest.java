package org.benchstroke.practice;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.benchstroke.bench.toml.FileMistakes;
import org.benchstroke.diagnosis.Cause;
import org.benchstroke.diagnosis.Diagnosis;
import org.junit.jupiter.api.Test;

/** A part of what the benchmark "confusion" counts, on seeds that no likelihood was counted on. */
class ConfusionTest {
  private static final Path PAGE = Path.of("docs/explanation/confusion.md");

  private static DrawnUnits units() throws FileMistakes {
    return DrawnUnits.of(Path.of("demo-data"), "fault-finding");
  }

  /** Asked are 95 % of clear and moderate faults; our own bar. */
  @Test
  void theHiddenFaultIsNamedFirst() throws FileMistakes {
    DrawnUnits units = units();
    List<String> wrong = new ArrayList<>();
    int all = 0;
    for (Cause cause : FaultDraw.causes()) {
      for (Severity severity : List.of(Severity.CLEAR, Severity.MODERATE)) {
        for (long seed = 50_000; cause != Cause.HEALTHY && seed < 50_002; seed++) {
          Diagnosis told = Diagnosis.of(units.judge(cause, severity, seed));
          all++;
          if (told.first().cause() != cause) {
            wrong.add(cause + " " + severity + " " + seed + ": " + told.first());
          }
        }
      }
    }
    assertThat(wrong).as("%s units", all).hasSizeLessThanOrEqualTo(all / 20);
  }

  @Test
  void ofSoundUnitsNothingStandsOut() throws FileMistakes {
    DrawnUnits units = units();
    for (long seed = 50_000; seed < 50_030; seed++) {
      Diagnosis told = Diagnosis.of(units.judge(Cause.HEALTHY, Severity.CLEAR, seed));
      assertThat(told.evidence()).as("seed %s", seed).noneMatch(e -> e.seen());
    }
  }

  @Test
  void thePageStatesTheRangesThatAreDrawn() throws IOException {
    String page = Files.readString(PAGE);
    for (Cause cause : FaultDraw.causes()) {
      for (Map.Entry<String, String> range : FaultDraw.ranges(cause).entrySet()) {
        assertThat(page)
            .contains(
                "| " + cause.title() + " | `" + range.getKey() + "` | " + range.getValue() + " |");
      }
    }
  }

  @Test
  void aSeedIsAUnit() {
    String one = FaultDraw.text(Cause.SPAN, Severity.CLEAR, 1, "x.toml");
    assertThat(FaultDraw.text(Cause.SPAN, Severity.CLEAR, 1, "x.toml")).isEqualTo(one);
    assertThat(FaultDraw.text(Cause.SPAN, Severity.CLEAR, 2, "x.toml")).isNotEqualTo(one);
  }
}
