package org.benchstroke.acceptance;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import org.benchstroke.record.Event;
import org.benchstroke.record.RunRecord;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** A read that had to be asked again leaves its trace in the record, a switch's too. */
class AskedAgainTest {
  private static final Path BENCH = Path.of("demo-data/benches/discrete-inputs.toml");

  private static final Path LINE = Path.of("src/test/resources/benches/one-rs485-line.toml");

  @TempDir Path folder;

  @Test
  void aSwitchThatWasAskedAgainIsWrittenThoughItDidNotChange() throws Exception {
    String text = Files.readString(BENCH);
    String rtu = text.replace("speaks = \"modbus tcp\"", "speaks = \"modbus rtu\"");
    assertThat(rtu).isNotEqualTo(text);
    Path bench = Files.writeString(folder.resolve("bench.toml"), rtu);
    String spoiled = Scripted.fault("switch inputs", "bad CRC", "exchange = 40");

    RunRecord record =
        VirtualBench.with(VirtualBench.simulation("healthy-b", spoiled), bench).run();

    assertThat(record.events(Event.Sampled.class))
        .anyMatch(s -> s.channel().startsWith("switch") && s.raw().contains("asked again after"));
    assertThat(VirtualBench.judge(record).passed()).isTrue();
  }

  /** Whatever a sample asked twice, for the position, its counter or the switches. */
  @ParameterizedTest
  @ValueSource(ints = {400, 401, 402, 403})
  void everyRequestOfASampleLeavesItsTrace(int exchange) {
    String spoiled = Scripted.fault("input module", "bad CRC", "exchange = " + exchange);
    RunRecord record =
        VirtualBench.with(VirtualBench.simulation("healthy-b", spoiled), LINE)
            .tests("[[test]]\ntest = \"exercise\"\nstrokes = 1\n")
            .run();
    assertThat(record.events(Event.Sampled.class))
        .anyMatch(s -> s.raw().contains("asked again after bad CRC"));
    assertThat(record.events(Event.Faulted.class)).isEmpty();
  }
}
