package org.benchstroke.io.modbus;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.util.Arrays;
import java.util.HexFormat;
import java.util.List;
import java.util.Objects;
import java.util.Set;
import org.benchstroke.core.clock.Deadline;
import org.benchstroke.core.clock.VirtualClock;
import org.benchstroke.io.instrument.InstrumentException;
import org.benchstroke.io.instrument.InstrumentException.Kind;
import org.benchstroke.io.transport.FakePeer;
import org.benchstroke.io.transport.Replay;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;

class ModbusFramesTest {
  private static final HexFormat HEX = HexFormat.ofDelimiter(" ").withUpperCase();
  private static final Set<String> SPOKEN = Set.of("01", "02", "03", "04", "05", "01x");

  /** Asks the question of the frame, and is answered with whatever the test likes. */
  private static ModbusAnswer ask(String request, String reply) throws InstrumentException {
    VirtualClock clock = new VirtualClock(Instant.EPOCH);
    FakePeer peer =
        new FakePeer(
            clock,
            sent -> {
              assertThat(HEX.formatHex(sent)).isEqualTo(request);
              return HEX.parseHex(reply);
            });
    byte[] pdu = HEX.parseHex(request.substring(21));
    ModbusRequest asked =
        pdu[0] == 5
            ? ModbusRequest.writeCoil(word(pdu, 1), word(pdu, 3) == 0xFF00)
            : ModbusRequest.read(table(pdu[0]), word(pdu, 1), word(pdu, 3));
    int unit = HEX.parseHex(request.substring(18, 20))[0];
    return new ModbusTcpLine(peer, Replay.ENDPOINT, clock)
        .exchange("module", unit, asked, Deadline.in(clock, 100_000_000L));
  }

  private static Register.Table table(int readFunction) {
    return Arrays.stream(Register.Table.values())
        .filter(table -> table.readFunction() == readFunction)
        .findFirst()
        .orElseThrow();
  }

  private static int word(byte[] bytes, int at) {
    return ((bytes[at] & 0xFF) << 8) | (bytes[at + 1] & 0xFF);
  }

  private static InstrumentException failure(String request, String reply) {
    return catchThrowableOfType(InstrumentException.class, () -> ask(request, reply));
  }

  /**
   * Reference: MODBUS Application Protocol V1.1b3, examples of 6.1 to 6.5 and 7 (seen); the header
   * of Modbus TCP around them is computed.
   */
  static List<String[]> publishedExchanges() throws IOException {
    List<String[]> rows =
        text("/reference/modbus-frames.csv")
            .lines()
            .filter(line -> !line.startsWith("#") && !line.startsWith("function,"))
            .map(line -> line.split(",", -1))
            .filter(fields -> SPOKEN.contains(fields[0]))
            .toList();
    return java.util.stream.IntStream.range(0, rows.size() / 2)
        .mapToObj(
            i ->
                new String[] {
                  rows.get(2 * i)[0],
                  rows.get(2 * i)[6],
                  rows.get(2 * i + 1)[6],
                  rows.get(2 * i + 1)[3]
                })
        .toList();
  }

  @Test
  void thereIsAnExchangeForEachFunctionSpoken() throws IOException {
    assertThat(publishedExchanges()).hasSize(6);
  }

  @ParameterizedTest
  @MethodSource("publishedExchanges")
  void speaksThePublishedFrames(String function, String request, String reply, String pdu)
      throws InstrumentException {
    switch (function) {
      case "01x" -> {
        InstrumentException refused = failure(request, reply);
        assertThat(refused.kind()).isEqualTo(Kind.REFUSED);
        assertThat(refused).hasMessageContaining("exception 02, illegal data address");
      }
      case "05" -> assertThat(ask(request, reply).data()).isEmpty();
      default -> assertThat(HEX.formatHex(ask(request, reply).data())).isEqualTo(pdu.substring(6));
    }
  }

  @Test
  void writesTheCoilOfTheSpecification() {
    assertThat(HEX.formatHex(ModbusRequest.writeCoil(0xAC, true).pdu()))
        .isEqualTo("05 00 AC FF 00");
    assertThat(HEX.formatHex(ModbusRequest.writeCoil(0xAC, false).pdu()))
        .isEqualTo("05 00 AC 00 00");
  }

  @Test
  void everyExceptionIsSaidInWords() throws IOException {
    JsonNode exceptions =
        new ObjectMapper().readTree(text("/reference/modbus-checks.json")).get("exceptions");
    assertThat(exceptions.size()).isEqualTo(9);
    exceptions
        .properties()
        .forEach(
            entry -> {
              String code = entry.getKey();
              InstrumentException refused =
                  failure("00 01 00 00 00 06 11 04 00 00 00 02", "00 01 00 00 00 03 11 84 " + code);
              boolean gateways = code.equals("0A") || code.equals("0B");
              assertThat(refused.kind()).isEqualTo(gateways ? Kind.BEHIND_GATEWAY : Kind.REFUSED);
              assertThat(refused)
                  .hasMessageContaining("exception " + code + ", " + entry.getValue().asText());
            });
    assertThat(new ModbusRefusal(0x63).words())
        .contains("a code that the protocol does not define");
  }

  @Test
  void asksForNoMoreThanTheProtocolAllows() throws IOException {
    JsonNode limits =
        new ObjectMapper().readTree(text("/reference/modbus-checks.json")).get("limits");
    int bits = limits.get("read_bits").get(1).asInt();
    int words = limits.get("read_registers").get(1).asInt();
    assertThat(ModbusRequest.read(Register.Table.COIL, 0, bits).count()).isEqualTo(bits);
    assertThat(ModbusRequest.read(Register.Table.INPUT, 0, words).count()).isEqualTo(words);
    assertThatIllegalArgumentException()
        .isThrownBy(() -> ModbusRequest.read(Register.Table.COIL, 0, bits + 1));
    assertThatIllegalArgumentException()
        .isThrownBy(() -> ModbusRequest.read(Register.Table.INPUT, 0, words + 1));
    assertThatIllegalArgumentException()
        .isThrownBy(() -> ModbusRequest.read(Register.Table.INPUT, 65535, 2));
    assertThatIllegalArgumentException()
        .isThrownBy(() -> ModbusRequest.read(Register.Table.INPUT, 0, 0));
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "00 00 00 00 00 07 11 04 04 42 48 00 00 | late reply: it answers transaction 0",
        "00 02 00 00 00 07 11 04 04 42 48 00 00 | which was never asked",
        "00 01 00 01 00 07 11 04 04 42 48 00 00 | the protocol id is 1, not 0",
        "00 01 00 00 00 07 12 04 04 42 48 00 00 | the reply is from unit id 18, not 17",
        "00 01 00 00 00 07 11 03 04 42 48 00 00 | the reply is for function 03, not 04",
        "00 01 00 00 00 03 11 83 02 | the reply is for function 83, not 04",
        "00 01 00 00 00 04 11 84 02 00 | the reply is for function 84, not 04",
        "00 01 00 00 00 05 11 04 02 42 48 | 4 bytes of data were asked for",
        "00 01 00 00 00 07 11 04 02 42 48 00 00 | the reply states 2 and holds 4",
        "00 01 00 00 00 05 11 04 04 42 48 | the reply states 4 and holds 2",
        "00 01 00 00 00 07 11 04 04 42 48 00 00 00 | 1 bytes more than one reply",
        "00 01 00 00 00 02 11 04 | the length field says 2, allowed are 3 to 254",
        "00 01 00 00 00 FF 11 04 | the length field says 255, allowed are 3 to 254",
        "48 54 54 50 2F 31 2E 31 | the protocol id is 21584, not 0: this is not Modbus TCP",
      })
  void whatIsNotTheReplyIsABadReply(String reply, String words) {
    InstrumentException failure = failure("00 01 00 00 00 06 11 04 00 00 00 02", reply);
    assertThat(failure.kind()).isEqualTo(Kind.BAD_REPLY);
    assertThat(failure).hasMessageContaining(words).hasMessageContaining(reply);
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "00 01 00 00 00 06 11 05 00 01 FF 00",
        "00 01 00 00 00 06 11 05 00 00 00 00",
        "00 01 00 00 00 05 11 05 00 00 FF"
      })
  void anEchoThatDiffersIsABadReply(String reply) {
    InstrumentException failure = failure("00 01 00 00 00 06 11 05 00 00 FF 00", reply);
    assertThat(failure.kind()).isEqualTo(Kind.BAD_REPLY);
    assertThat(failure)
        .hasMessageContaining("the echo differs from the write")
        .hasMessageContaining("it is not known whether the write took effect");
  }

  @Test
  void halfAReplyIsNoReply() {
    InstrumentException failure =
        failure("00 01 00 00 00 06 11 04 00 00 00 02", "00 01 00 00 00 07 11 04 04 42 48");
    assertThat(failure.kind()).isEqualTo(Kind.NO_REPLY);
    assertThat(failure).hasMessageContaining("-> 00 01 00 00 00 07 11 04 04 42 48");
  }

  @Test
  void noTransactionNumberIsUsedTwiceAndZeroIsLeftOut() throws InstrumentException {
    VirtualClock clock = new VirtualClock(Instant.EPOCH);
    FakeModbusBox box = new FakeModbusBox();
    int[] last = {0};
    FakePeer peer =
        new FakePeer(
            clock,
            sent -> {
              int number = word(sent, 0);
              assertThat(number).isEqualTo(last[0] % 0xFFFF + 1);
              last[0] = number;
              return box.answer(sent);
            });
    ModbusTcpLine line = new ModbusTcpLine(peer, Replay.ENDPOINT, clock);
    ModbusRequest request = ModbusRequest.read(Register.Table.INPUT, 0, 1);
    for (int i = 0; i < 65_537; i++) {
      line.exchange("module", 1, request, Deadline.in(clock, 100_000_000L));
    }
    assertThat(last[0]).isEqualTo(2);
  }

  private static String text(String path) throws IOException {
    try (InputStream in =
        Objects.requireNonNull(ModbusFramesTest.class.getResourceAsStream(path), path)) {
      return new String(in.readAllBytes(), StandardCharsets.UTF_8);
    }
  }
}
