package org.benchstroke.acceptance;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Stream;
import org.benchstroke.aids.diagnosis.Cause;
import org.benchstroke.aids.diagnosis.Diagnosis;
import org.benchstroke.aids.diagnosis.RankedCause;
import org.benchstroke.aids.diagnosis.TwinAndCauses;
import org.benchstroke.aids.twin.Twin;
import org.benchstroke.judge.JudgedRun;
import org.benchstroke.judge.Judgement;
import org.benchstroke.papers.HtmlReport;
import org.benchstroke.simulator.Conclusion;
import org.benchstroke.simulator.Simulation;
import org.benchstroke.unit.MeasureKind;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;

/**
 * Every unit of simulators/ in a routine acceptance on a bench with every instrument: the verdict,
 * where it shows, and the cause are those of its file's {@code [expected]}. Pneumatic units are run
 * by {@link PneumaticTest}.
 */
class FaultCollectionTest {
  private static final Path BENCH = Path.of("demo-data/benches/type-test-bench.toml");
  private static final Path ROUTINE = Path.of("demo-data/procedures/routine-acceptance.toml");

  /**
   * Its fault is the voltage of the source, which a bench file would overrule: the built-in one.
   */
  private static final List<String> ON_THE_BUILT_IN_BENCH = List.of("loop-resistance-too-high");

  private static JudgedRun judge(String unit) throws IOException {
    String text = Files.readString(ROUTINE);
    VirtualBench bench =
        ON_THE_BUILT_IN_BENCH.contains(unit)
            ? VirtualBench.with(unit)
            : VirtualBench.with(unit, BENCH);
    return bench.tests(text.substring(text.indexOf("[[test]]"))).judge();
  }

  static List<String> units() throws IOException {
    try (Stream<Path> files = Files.list(VirtualBench.SIMULATORS)) {
      return files
          .map(f -> f.getFileName().toString())
          .filter(f -> f.endsWith(".toml"))
          .map(f -> f.replace(".toml", ""))
          .filter(f -> VirtualBench.simulation(f).parameters().pneumatic().isEmpty())
          .sorted()
          .toList();
    }
  }

  @ParameterizedTest
  @MethodSource("units")
  void aUnitIsJudgedAndDiagnosedAsItsFileSays(String unit) throws IOException {
    Simulation simulation = VirtualBench.simulation(unit);
    assertThat(simulation.expected()).as("[expected] of " + unit).isPresent();
    Conclusion expected = simulation.expected().orElseThrow();
    JudgedRun run = judge(unit);
    assertThat(run.verdict().text()).as(run.reason()).isEqualTo(expected.verdict());
    String ended = run.record().closed().orElseThrow().reason();
    assertThat(run.reason() + ended + run.sentences() + run.orders()).contains(expected.shows());
    Diagnosis diagnosis = Diagnosis.of(run);
    Sentences.requirePlain(run, diagnosis);
    Twin.of(run).words().forEach(Sentences::requirePlain);
    if (expected.hasCause()) {
      assertThat(key(diagnosis.first().cause()))
          .as(diagnosis.toString())
          .isEqualTo(expected.cause());
      assertThat(diagnosis.lines().get(0))
          .containsIgnoringCase("most likely: " + diagnosis.first().cause().title());
    } else {
      assertThat(diagnosis.outcome())
          .isEqualTo(
              run.complete() ? Diagnosis.Outcome.NOTHING_STANDS_OUT : Diagnosis.Outcome.CANT_TELL);
    }
    assertThat(diagnosis.ranked())
        .extracting(RankedCause::probability)
        .allMatch(probability -> probability >= 0.0 && probability <= 1.0 + 1e-9);
  }

  /** A name that is no cause's could be true of no diagnosis; "healthy" is written "none". */
  @Test
  void everyCauseIsOneThatTheDiagnosisKnows() throws IOException {
    List<String> known =
        Arrays.stream(Cause.values())
            .filter(c -> c != Cause.HEALTHY)
            .map(FaultCollectionTest::key)
            .toList();
    assertThat(units())
        .map(unit -> VirtualBench.simulation(unit).expected().orElseThrow())
        .filteredOn(Conclusion::hasCause)
        .hasSizeGreaterThan(20)
        .allSatisfy(expected -> assertThat(known).contains(expected.cause()));
  }

  /** What a finding tells with its numbers, the likely cause does not tell again. */
  @ParameterizedTest
  @CsvSource({
    "zero-shift, the error is there at 0 % already",
    "span-error, the error grows with the setpoint",
    "cam-set-short, it stops short of the end with its end switch made",
    "slack-after-sensor, the stem differs more between the two ways",
    "dead-band-too-small, it hunts with a steady period",
    "wrong-fail-action, it does not do what was ordered",
    "reversed-action, it moved against the signal"
  })
  void nothingIsToldTwice(String unit, String sign) throws IOException {
    JudgedRun run = judge(unit);
    Diagnosis diagnosis = Diagnosis.of(run);
    List<String> beside = diagnosis.linesBeside(run.findings());
    assertThat(String.join("\n", diagnosis.lines())).contains("for: ").contains(sign);
    assertThat(String.join("\n", beside)).contains("see the findings").doesNotContain(sign);
    assertThat(beside.size()).isLessThanOrEqualTo(diagnosis.lines().size());
  }

  @Test
  void theReportRefersToTheFindingsToo() throws IOException {
    String html = new HtmlReport().html(new TwinAndCauses(judge("zero-shift")), Optional.empty());
    assertThat(html)
        .containsOnlyOnce("Every point reads high by +1.5 %")
        .contains("see the findings")
        .doesNotContain("the error is there at 0 % already")
        .containsPattern("set the zero after the cams \\(by -1\\.\\d+ ± 0\\.\\d+ %\\)");
  }

  /** Where the verdict says nothing of it, the evidence stands with the cause. */
  @Test
  void whatNoFindingTellsStandsWithTheCause() throws IOException {
    JudgedRun run = judge("quadrant-off");
    Diagnosis diagnosis = Diagnosis.of(run);
    assertThat(diagnosis.linesBeside(run.findings())).isEqualTo(diagnosis.lines());
  }

  private static String key(Cause cause) {
    return cause.name().toLowerCase(Locale.ROOT);
  }

  /** Clean by every limit; only the time that a reversal takes gives it away. */
  @Test
  void backlashShowsInTheDeadTimeOfAReversalAlone() throws IOException {
    JudgedRun run = judge("backlash-before-sensor");
    // 2 % of play at 6.67 %/s are 0.3 s.
    assertThat(deadTime(run, "10 % down") - deadTime(run, "10 % up")).isBetween(0.2, 0.4);
    JudgedRun sound = judge("healthy-b");
    assertThat(Math.abs(deadTime(sound, "10 % down") - deadTime(sound, "10 % up"))).isLessThan(0.1);
  }

  private static double deadTime(JudgedRun run, String place) {
    return run.judgements().stream()
        .map(Judgement::measure)
        .filter(m -> m.kind() == MeasureKind.DEAD_TIME && m.place().words().equals(place))
        .findFirst()
        .orElseThrow()
        .value()
        .orElseThrow();
  }
}
