package org.benchstroke.cli;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class TruthFileTest {
  @TempDir Path folder;

  /** The port is taken, so that the command ends by itself after it has written the truth. */
  private JsonNode truth(String simulation) throws Exception {
    Path file = folder.resolve("truth.json");
    try (ServerSocket taken =
        new ServerSocket(0, 1, InetAddress.getByAddress(new byte[] {127, 0, 0, 1}))) {
      Command command =
          Command.run(
              "simulate",
              "simulators/" + simulation + ".toml",
              "--truth",
              file.toString(),
              "--port",
              Integer.toString(Math.min(taken.getLocalPort(), 65533)));
      assertThat(command.err()).contains("can't be used");
    }
    return new ObjectMapper().readTree(Files.readString(file));
  }

  @Test
  void truthOfAUnitWithASpanError() throws Exception {
    JsonNode truth = truth("span-error");
    assertThat(truth.get("kind").asText()).isEqualTo("unit truth");
    assertThat(truth.get("zero_error_pct").asDouble()).isCloseTo(0.0, within(0.1));
    assertThat(truth.get("span_error_pct").asDouble()).isCloseTo(2.0, within(0.1));
    assertThat(truth.get("stem_span_error_pct").asDouble()).isCloseTo(0.0, within(0.15));
    assertThat(truth.get("points").size()).isEqualTo(11);
    JsonNode lowest = truth.get("points").get(0);
    assertThat(lowest.get("travel_pct").asDouble()).isZero();
    assertThat(lowest.get("up_error_pct").isNull()).isTrue();
    assertThat(lowest.get("down_error_pct").isNumber()).isTrue();
    // 90°/(5.94°/s), seen through a span that is 2 % too large.
    assertThat(truth.get("opening_s").asDouble()).isCloseTo(15.15 / 1.02, within(0.05));
    assertThat(truth.get("switches").get(0).get("switch").asText()).isEqualTo("closed");
    assertThat(truth.get("switches").get(0).get("trip_deg").asDouble()).isEqualTo(-0.4);
  }

  @Test
  void reversedActionIsTheWrongWayFromWhatWasOrdered() throws Exception {
    JsonNode truth = truth("reversed-action");
    assertThat(truth.get("zero_error_pct").asDouble()).isCloseTo(100.0, within(0.5));
    assertThat(truth.get("span_error_pct").asDouble()).isCloseTo(-200.0, within(0.5));
  }

  @Test
  void aPlaceThatCannotBeWrittenIsTold() throws Exception {
    Path file = Files.writeString(folder.resolve("file"), "in the way");
    Command command =
        Command.run(
            "simulate", "simulators/healthy-b.toml", "--truth", file.resolve("x.json").toString());
    assertThat(command.code()).isEqualTo(2);
    assertThat(command.err()).contains("can't be written").contains("name another place");
  }
}
