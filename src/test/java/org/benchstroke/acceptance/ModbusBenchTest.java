package org.benchstroke.acceptance;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.benchstroke.judge.AsOrdered;
import org.benchstroke.judge.JudgedRun;
import org.benchstroke.judge.Word;
import org.benchstroke.record.Event;
import org.benchstroke.record.RunRecord;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A bench on one RS-485 line, with every kind of register, plays a whole acceptance. */
class ModbusBenchTest {
  private static final Path BENCH = Path.of("src/test/resources/benches/one-rs485-line.toml");

  private static VirtualBench bench() {
    return VirtualBench.with("healthy-b", BENCH);
  }

  @Test
  void aHealthyUnitPassesOverOneLine() {
    JudgedRun run = bench().judge();
    assertThat(run.verdict()).as(run.reason()).isEqualTo(Word.PASS);
  }

  @Test
  void positionLoopAndStampsAreOfOneReply() {
    RunRecord record = bench().run();
    List<Event.Sampled> samples = record.events(Event.Sampled.class).toList();
    List<Event.Sampled> loops = samples.stream().filter(s -> s.channel().equals("loop")).toList();
    assertThat(loops).isNotEmpty();
    for (Event.Sampled loop : loops) {
      assertThat(samples)
          .anyMatch(
              s ->
                  s.channel().equals("position")
                      && s.askedNanos() == loop.askedNanos()
                      && s.answeredNanos() == loop.answeredNanos());
    }
  }

  @Test
  void aSourceThatCanNotOpenTheLoopSaysSoAndNothingFails(@TempDir Path folder) throws IOException {
    String output =
        """
        [instrument.signal_source.output]
        table = "coil"
        address = "00001"
        """;
    String text = Files.readString(BENCH);
    assertThat(text).contains(output);
    Path without = Files.writeString(folder.resolve("bench.toml"), text.replace(output, ""));
    VirtualBench bench = VirtualBench.with("healthy-b", without);
    JudgedRun run = bench.judge();
    AsOrdered open =
        run.orders().stream()
            .filter(o -> o.what().equals("signal loss: open loop"))
            .findFirst()
            .orElseThrow();
    assertThat(open.word()).isEqualTo(Word.NO_RESULT);
    assertThat(open.found())
        .isEqualTo("not done: the source has no output switch, so it can't open the loop");
    assertThat(run.verdict()).isEqualTo(Word.NO_RESULT);
    assertThat(run.reason()).contains("signal loss: open loop");
  }
}
