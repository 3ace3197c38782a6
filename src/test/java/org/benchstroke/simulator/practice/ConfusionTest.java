package org.benchstroke.simulator.practice;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.benchstroke.Counted;
import org.benchstroke.acceptance.Sentences;
import org.benchstroke.aids.diagnosis.Cause;
import org.benchstroke.aids.diagnosis.Diagnosis;
import org.benchstroke.aids.diagnosis.RankedCause;
import org.benchstroke.core.toml.FileMistakes;
import org.benchstroke.judge.JudgedRun;
import org.junit.jupiter.api.Test;

/** A part of what the benchmark "confusion" counts, on seeds that no likelihood was counted on. */
class ConfusionTest {
  private static final Path PAGE = Path.of("docs/explanation/confusion.md");

  private static final double SURE = 0.9;
  private static final long MOST = 50_000L + Counted.of(8);

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
        for (long seed = 50_000; cause != Cause.HEALTHY && seed < MOST; seed++) {
          JudgedRun run = units.judge(cause, severity, seed);
          Diagnosis told = Diagnosis.of(run);
          Sentences.requirePlain(run, told);
          all++;
          if (!named(told).contains(cause)) {
            wrong.add(cause + " " + severity + " " + seed + ": " + told.lines());
          }
        }
      }
    }
    assertThat(wrong).as("%s units", all).hasSizeLessThanOrEqualTo(all / 20);
  }

  private static List<Cause> named(Diagnosis told) {
    return told.named().stream().flatMap(List::stream).map(RankedCause::cause).toList();
  }

  /** Of twice the largest that is clear nothing else is named for sure; our own bar: one in 20. */
  @Test
  void whatIsLargerThanUsualIsTakenForNothingElse() throws FileMistakes {
    DrawnUnits units = units();
    List<String> wrong = new ArrayList<>();
    List<Cause> graded = FaultDraw.causes().stream().filter(FaultDraw::graded).toList();
    for (Cause cause : graded) {
      Diagnosis told = Diagnosis.of(units.judge(cause, Severity.TWICE, 51_000));
      told.named().stream()
          .flatMap(List::stream)
          .filter(r -> r.probability() >= SURE && !FaultDraw.sameUnit(r.cause(), cause))
          .forEach(r -> wrong.add(cause + ": " + told.lines()));
    }
    assertThat(wrong).as("%s units", graded.size()).hasSizeLessThanOrEqualTo(graded.size() / 20);
  }

  /** Of two faults at once a third is hardly ever sure; our own bar: one in ten. */
  @Test
  void ofTwoFaultsAtOnceNoThirdIsSure() throws FileMistakes {
    DrawnUnits units = units();
    List<Cause> causes = FaultDraw.ofTheUnit();
    List<String> wrong = new ArrayList<>();
    int all = 0;
    for (int i = 0; i + 7 < causes.size(); i++) {
      Fault one = Fault.of(causes.get(i), Severity.CLEAR, 52_000 + i);
      Fault other = Fault.of(causes.get(i + 7), Severity.CLEAR, 52_000 + i);
      if (FaultDraw.together(one, other)) {
        all++;
        Diagnosis told = Diagnosis.of(units.judge(List.of(one, other), 52_000 + i));
        told.named().stream()
            .flatMap(List::stream)
            .filter(r -> r.probability() >= SURE)
            .filter(r -> r.cause() != one.cause() && r.cause() != other.cause())
            .forEach(r -> wrong.add(one + " " + other + ": " + told.lines()));
      }
    }
    assertThat(wrong).as("%s units", all).hasSizeLessThanOrEqualTo(all / 10);
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
    String one = span(1);
    assertThat(span(1)).isEqualTo(one);
    assertThat(span(2)).isNotEqualTo(one);
  }

  private static String span(long seed) {
    return FaultDraw.text(List.of(Fault.of(Cause.SPAN, Severity.CLEAR, seed)), seed, "x.toml");
  }
}
