package org.benchstroke.cli;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class TruthFileTest {
  @TempDir Path folder;

  /** The port is taken, so that the command ends by itself after it has written the truth. */
  private JsonNode truth(String simulation, String... more) throws Exception {
    Path file = folder.resolve("truth.json");
    try (ServerSocket taken =
        new ServerSocket(0, 1, InetAddress.getByAddress(new byte[] {127, 0, 0, 1}))) {
      List<String> words =
          new ArrayList<>(
              List.of(
                  "simulate",
                  "simulators/" + simulation + ".toml",
                  "--truth",
                  file.toString(),
                  "--port",
                  Integer.toString(Math.min(taken.getLocalPort(), 65533))));
      words.addAll(Arrays.asList(more));
      Object[] line = words.toArray();
      Command command = Command.run(line);
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

  /** It takes over its sensor's errors, and 0 % lies 0.33° inside its switches. */
  @Test
  void truthIsThatOfTheUnitThatHasCalibratedItself() throws Exception {
    JsonNode truth = truth("healthy-b", "--calibrate");
    assertThat(truth.get("zero_error_pct").asDouble()).isCloseTo(0.0, within(0.15));
    assertThat(truth.get("stem_zero_error_pct").asDouble()).isBetween(-0.6, 0.6);
    JsonNode before = truth("healthy-b");
    assertThat(truth.get("stem_span_error_pct").asDouble())
        .isNotCloseTo(before.get("stem_span_error_pct").asDouble(), within(1e-3));
  }

  @Test
  void aPneumaticUnitHasNoMotorsThresholds() throws Exception {
    JsonNode truth = truth("pneumatic-sound");
    assertThat(truth.get("start_pct").isNull()).isTrue();
    assertThat(truth.get("coast_pct").isNull()).isTrue();
    assertThat(truth.get("dead_band_pct").asDouble()).isCloseTo(0.4, within(0.05));
  }

  /** It never comes to 95 %, from which a stroke would be timed. */
  @Test
  void aUnitThatDoesNotOpenFullyHasNoStrokeTimes() throws Exception {
    JsonNode truth = truth("pneumatic-low-supply");
    assertThat(truth.get("opening_s").isNull()).isTrue();
    assertThat(truth.get("closing_s").isNull()).isTrue();
    assertThat(truth.get("span_error_pct").asDouble()).isCloseTo(-31.0, within(0.5));
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
