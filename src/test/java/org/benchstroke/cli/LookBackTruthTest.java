package org.benchstroke.cli;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.HashMap;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import org.benchstroke.acceptance.VirtualBench;
import org.benchstroke.judge.JudgedRun;
import org.benchstroke.judge.Judgement;
import org.benchstroke.judge.Word;
import org.benchstroke.papers.sheets.RealRecord;
import org.benchstroke.simulator.Simulation;
import org.benchstroke.unit.MeasureKind;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * Runs of this program with a position input that is off by a known amount. What the same unit
 * shows with a sound input, seed for seed, is the truth that looking back must come to.
 */
@Timeout(300)
class LookBackTruthTest {
  /** The position input of the built-in bench. */
  private static final String INPUT = "900303";

  /** 16 mA are 100 % of travel. */
  private static final double PERCENT_PER_MILLIAMP = 6.25;

  /** Two runs of one unit differ by less: the moments at which it is read are not the same, %. */
  private static final double ALIKE_PERCENT = 0.08;

  @TempDir Path folder;

  private static Simulation simulation(long seed, double unitPercent, double inputMilliamps) {
    String tables =
        inputMilliamps == 0.0
            ? ""
            : String.format(
                Locale.ROOT,
                "%n[[instrument_error]]%non = \"position input\"%n"
                    + "role = \"position transmitter\"%noffset = %s%n",
                inputMilliamps);
    Simulation s = VirtualBench.simulation("healthy-b", tables).withSeed(seed);
    return s.withUnit(
        s.parameters().with(s.parameters().transmitter().withErrors(unitPercent, 0.0)));
  }

  private static Map<String, Judgement> errors(JudgedRun run) {
    Map<String, Judgement> errors = new HashMap<>();
    for (Judgement judged : run.judgements()) {
      if (judged.measure().kind() == MeasureKind.TRAVEL_ERROR) {
        errors.put(judged.measure().place().id(), judged);
      }
    }
    return errors;
  }

  /**
   * A sound unit that failed for the input's sake, a bad one that passed for it, and one whose word
   * holds.
   *
   * @param unit by how much the unit itself is off, % of travel
   * @param input by how much the input reads too much, mA
   * @param wrong whether words were wrong for that
   */
  @ParameterizedTest
  @CsvSource({
    "11, 0.0, 0.22, true",
    "12, 0.0, -0.22, true",
    "13, 1.3, -0.22, true",
    "14, -1.3, 0.2, true",
    "15, 0.0, 0.03, false",
    "16, 0.6, 0.06, true",
    "17, -0.5, -0.12, true",
    "18, 1.5, 0.02, false"
  })
  void theVerdictsAreThoseOfTheTruth(long seed, double unit, double input, boolean wrong)
      throws Exception {
    Map<String, Judgement> truth = errors(VirtualBench.with(simulation(seed, unit, 0.0)).judge());
    Path record =
        RealRecord.of(
            VirtualBench.with(simulation(seed, unit, input)), folder.resolve("run.jsonl"));
    assertThat(Command.run("archive", "rebuild", folder).code()).isZero();
    Command asked =
        Command.run(
            "look-back",
            "--records",
            folder,
            "--instrument",
            INPUT,
            "--since",
            "2026-05-01",
            "--error",
            Math.abs(input) + "mA",
            "--json");
    assertThat(asked.err()).isEmpty();
    JsonNode run = new ObjectMapper().readTree(asked.out()).get("runs").get(0);
    Set<String> met = new TreeSet<>();
    boolean changed = false;
    for (JsonNode measure : run.get("measures")) {
      if (!measure.get("measure").asText().equals(MeasureKind.TRAVEL_ERROR.key())) {
        continue;
      }
      String place = measure.get("place").asText();
      Judgement sound = truth.get(place);
      if (sound == null) {
        continue; // The highest of a run's readings may be at another point.
      }
      met.add(place);
      double shift = measure.get("shift").asDouble();
      assertThat(shift).isCloseTo(Math.abs(input) * PERCENT_PER_MILLIAMP, within(1e-9));
      double corrected = measure.get("value").asDouble() - Math.signum(input) * shift;
      double value = sound.measure().value().orElseThrow();
      assertThat(corrected).as(place).isCloseTo(value, within(ALIKE_PERCENT));
      String word = measure.get(input > 0.0 ? "lower" : "higher").asText();
      if (farFromAnyBorder(sound)) {
        assertThat(word).as(place + " of " + record).isEqualTo(word(sound));
        if (!measure.get("before").asText().equals(word(sound))) {
          changed = true;
          // By the size of an error alone its sign isn't known: the word may be undecided.
          assertThat(measure.get("fate").asText()).as(place).isIn("changed", "undecided");
        }
      }
    }
    assertThat(met).hasSizeGreaterThanOrEqualTo(8);
    assertThat(changed).isEqualTo(wrong);
    assertThat(asked.code()).isEqualTo(run.get("fate").asText().equals("kept") ? 0 : 1);
    assertThat(Files.exists(record)).isTrue();
  }

  private static String word(Judgement judged) {
    return judged.word().map(Word::text).orElseThrow();
  }

  /** ±1 %, and a guard band of U within and beyond it. */
  private static boolean farFromAnyBorder(Judgement judged) {
    double size = Math.abs(judged.measure().value().orElseThrow());
    double half = judged.measure().budget().orElseThrow().expand().half();
    return Math.abs(size - 1.0) > ALIKE_PERCENT
        && Math.abs(Math.abs(size - 1.0) - half) > ALIKE_PERCENT;
  }
}
