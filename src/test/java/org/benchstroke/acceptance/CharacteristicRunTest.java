package org.benchstroke.acceptance;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.benchstroke.judge.JudgedRun;
import org.benchstroke.judge.Judgement;
import org.benchstroke.judge.Measure;
import org.benchstroke.simulator.SimulationReader;
import org.benchstroke.unit.MeasureKind;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class CharacteristicRunTest {
  private static final String TRAVEL =
      """
      [[test]]
      test = "travel error"
      points_pct = [10, 30, 50, 70, 90]
      cycles = 1
      start_pct = 50
      first = "down"
      """;

  /** A sound unit of another signal: what it is sent and what it seeks must agree. */
  @ParameterizedTest
  @ValueSource(
      strings = {
        "zero_mA = 4.0|full_mA = 12.0|action = 'direct'",
        "zero_mA = 12.0|full_mA = 20.0|action = 'reverse'",
        "zero_mA = 4.0|full_mA = 20.0|action = 'direct'|characteristic = 'equal percentage'"
            + "|rangeability = 50",
        "zero_mA = 4.0|full_mA = 20.0|action = 'direct'|characteristic = 'table'"
            + "|table_signal_pct = [0, 50, 100]|table_travel_pct = [0, 30, 100]"
      })
  void aSoundUnitHasLittleErrorByAnySignal(String signal, @TempDir Path folder) throws Exception {
    String type =
        Files.readString(Path.of("demo-data/unit-types/quarter-turn-15s.toml"))
            .replaceFirst(
                "(?s)\\[signal\\].*?(?=\\n\\[)", "[signal]\n" + signal.replace('|', '\n') + "\n");
    String unit =
        Files.readString(Path.of("simulators/healthy-b.toml"))
            .replaceFirst("unit_type = .*", "unit_type = \"type.toml\"");
    Files.writeString(folder.resolve("type.toml"), type, StandardCharsets.UTF_8);
    Path file = Files.writeString(folder.resolve("unit.toml"), unit, StandardCharsets.UTF_8);

    JudgedRun run = VirtualBench.with(SimulationReader.read(file)).tests(TRAVEL).judge();

    List<Measure> errors =
        run.judgements().stream()
            .map(Judgement::measure)
            .filter(m -> m.kind() == MeasureKind.TRAVEL_ERROR && m.value().isPresent())
            .toList();
    assertThat(errors).as(run.reason()).hasSize(8);
    assertThat(errors)
        .allSatisfy(m -> assertThat(m.value().orElseThrow()).isCloseTo(0.0, within(0.3)));
  }
}
