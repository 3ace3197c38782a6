package org.benchstroke.acceptance;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.concurrent.atomic.AtomicInteger;
import org.benchstroke.record.Event;
import org.benchstroke.record.RunRecord;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A read that had to be asked again leaves its trace in the record, a switch's too. */
class AskedAgainTest {
  private static final Path BENCH = Path.of("demo-data/benches/discrete-inputs.toml");
  private static final int READ_DISCRETE_INPUTS = 2;
  private static final int SPOILED = 40;

  @TempDir Path folder;

  @Test
  void aSwitchThatWasAskedAgainIsWrittenThoughItDidNotChange() throws Exception {
    String text = Files.readString(BENCH);
    String rtu = text.replace("speaks = \"modbus tcp\"", "speaks = \"modbus rtu\"");
    assertThat(rtu).isNotEqualTo(text);
    Path bench = Files.writeString(folder.resolve("bench.toml"), rtu);
    AtomicInteger reads = new AtomicInteger();

    RunRecord record =
        VirtualBench.with("healthy-b", bench)
            .weather(
                (endpoint, nanos, request) ->
                    request.length == 8
                            && request[1] == READ_DISCRETE_INPUTS
                            && reads.incrementAndGet() == SPOILED
                        ? new FaultyLinks.Fault.Changed(AskedAgainTest::flipped)
                        : new FaultyLinks.Fault.None())
            .run();

    assertThat(reads.get()).isGreaterThan(SPOILED);
    assertThat(record.events(Event.Sampled.class))
        .anyMatch(s -> s.channel().startsWith("switch") && s.raw().contains("asked again after"));
    assertThat(VirtualBench.judge(record).passed()).isTrue();
  }

  private static byte[] flipped(byte[] reply) {
    byte[] other = reply.clone();
    other[3] ^= 1;
    return other;
  }
}
