package org.benchstroke.simulator;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HexFormat;
import java.util.List;
import java.util.Map;
import java.util.SplittableRandom;
import java.util.stream.Stream;
import org.benchstroke.io.modbus.Register.Table;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;

/** The Modbus server against the specification's examples, and against nonsense. */
class ModbusTcpSessionTest {
  private static final int UNIT = 0x11;

  private final int[] coils = new int[200];
  private final int[] holding = new int[200];
  private final ModbusTcpSession session = new ModbusTcpSession(Map.of(UNIT, map()));

  /** The values that the specification's examples read. */
  private RegisterMap map() {
    int[] discrete = new int[300];
    fill(coils, 19, "CD 6B 05", 19);
    fill(discrete, 196, "AC DB 35", 22);
    holding[107] = 0x022B;
    holding[109] = 0x0064;
    int[] input = new int[9];
    input[8] = 0x000A;
    return new RegisterMap()
        .add(Table.COIL, 0, coils.length, () -> coils, (index, value) -> coils[index] = value)
        .add(Table.DISCRETE, 0, discrete.length, () -> discrete)
        .add(Table.HOLDING, 0, holding.length, () -> holding, (index, v) -> holding[index] = v)
        .add(Table.INPUT, 0, input.length, () -> input);
  }

  private static void fill(int[] bits, int from, String hex, int count) {
    byte[] bytes = bytes(hex);
    for (int i = 0; i < count; i++) {
      bits[from + i] = (bytes[i / 8] >> (i % 8)) & 1;
    }
  }

  record Example(String name, String request, String response) {
    @Override
    public String toString() {
      return name;
    }
  }

  // Source: MODBUS Application Protocol Specification V1.1b3, examples of 6.1..6.12 and 7; seen.
  // The TCP header around them is computed: transaction 1, unit 0x11.
  static Stream<Example> examples() throws IOException {
    List<Example> examples = new ArrayList<>();
    String request = "";
    for (String line :
        Files.readAllLines(Path.of("src/test/resources/reference/modbus-frames.csv"))) {
      String[] fields = line.split(",", -1);
      if (line.startsWith("#") || !fields[0].matches("0[1-6]|0F|10|01x|07")) {
        continue;
      }
      if (fields[2].equals("request")) {
        request = fields[6];
      } else if (!fields[0].equals("07")) {
        examples.add(new Example(fields[1], request, fields[6]));
      }
    }
    assertThat(examples).hasSize(9);
    return examples.stream();
  }

  @ParameterizedTest
  @MethodSource("examples")
  void answersTheSpecificationsExamples(Example example) {
    assertThat(hex(session.feed(bytes(example.request())))).isEqualTo(example.response());
  }

  @ParameterizedTest
  @MethodSource("examples")
  void answersThemInChunksOfAnySize(Example example) {
    byte[] twice = bytes(example.request() + " " + example.request());
    for (int size = 1; size <= twice.length; size++) {
      ByteArrayOutputStream answers = new ByteArrayOutputStream();
      for (byte[] chunk : Chunks.of(twice, size)) {
        answers.writeBytes(session.feed(chunk));
      }
      assertThat(hex(answers.toByteArray()))
          .isEqualTo(example.response() + " " + example.response());
    }
  }

  @Test
  void writesWhatItIsTold() {
    session.feed(bytes("00 01 00 00 00 06 11 05 00 AC FF 00"));
    assertThat(coils[172]).isEqualTo(1);
    session.feed(bytes("00 02 00 00 00 0B 11 10 00 01 00 02 04 00 0A 01 02"));
    assertThat(holding[1]).isEqualTo(0x000A);
    assertThat(holding[2]).isEqualTo(0x0102);
    session.feed(bytes("00 03 00 00 00 09 11 0F 00 13 00 0A 02 CD 01"));
    assertThat(hex(session.feed(bytes("00 04 00 00 00 06 11 01 00 13 00 0A"))))
        .isEqualTo("00 04 00 00 00 05 11 01 02 CD 01");
  }

  // Exception codes: MODBUS Application Protocol Specification V1.1b3, clause 7.
  @ParameterizedTest
  @CsvSource({
    "07, 87 01", // a function of serial lines
    "2B 0E 01 00, AB 01",
    "03 00 C8 00 01, 83 02", // one past the end
    "03 00 C7 00 02, 83 02",
    "04 FF FF 00 02, 84 02",
    "06 01 00 00 01, 86 02",
    "10 00 C7 00 02 04 00 01 00 02, 90 02",
    "03 00 00 00 00, 83 03",
    "03 00 00 00 7E, 83 03",
    "01 00 00 07 D1, 81 03",
    "05 00 00 12 34, 85 03",
    "0F 00 00 00 08 02 FF FF, 8F 03", // the byte count does not fit
    "10 00 00 00 01 02 00, 90 03", // too short
    "10 00 00, 90 03",
    "03 00 00, 83 03",
    "03, 83 03",
  })
  void refusesWithAnException(String request, String reply) {
    byte[] pdu = bytes(request);
    String header = String.format("00 07 00 00 00 %02X 11 ", pdu.length + 1);
    assertThat(hex(session.feed(bytes(header + request))))
        .isEqualTo("00 07 00 00 00 03 11 " + reply);
    assertThat(session.closed()).isFalse();
  }

  @Test
  void refusedWriteChangesNothing() {
    holding[199] = 5;
    session.feed(bytes("00 01 00 00 00 0B 11 10 00 C7 00 02 04 00 01 00 02"));
    assertThat(holding[199]).isEqualTo(5);
  }

  @Test
  void unknownUnitIsOutOfReach() {
    assertThat(hex(session.feed(bytes("00 01 00 00 00 06 63 03 00 00 00 01"))))
        .isEqualTo("00 01 00 00 00 03 63 83 0B");
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "00 01 00 01 00 06 11 03 00 00 00 01", // protocol id
        "00 01 00 00 00 01 11", // no function code
        "00 01 00 00 00 00 11",
        "00 01 00 00 00 FF 11 03", // longer than any request
        "47 45 54 20 2F 20 48 54 54 50",
      })
  void hangsUpOnAHeaderThatCantBeOne(String nonsense) {
    String good = "00 09 00 00 00 06 11 04 00 08 00 01";
    byte[] answer = session.feed(bytes(good + " " + nonsense));
    assertThat(hex(answer)).isEqualTo("00 09 00 00 00 05 11 04 02 00 0A");
    assertThat(session.closed()).isTrue();
    assertThat(session.feed(bytes(good))).isEmpty();
  }

  @ParameterizedTest
  @ValueSource(longs = {1, 2, 3, 4, 5, 6, 7, 8})
  void garbageNeverKillsIt(long seed) {
    SplittableRandom random = new SplittableRandom(seed);
    RegisterMap map = map();
    for (int i = 0; i < 3000; i++) {
      ModbusTcpSession victim = new ModbusTcpSession(Map.of(UNIT, map));
      byte[] pdu = new byte[1 + random.nextInt(20)];
      random.nextBytes(pdu);
      pdu[0] = (byte) random.nextInt(20);
      byte[] frame = new byte[7 + pdu.length];
      frame[5] = (byte) (pdu.length + 1);
      frame[6] = UNIT;
      System.arraycopy(pdu, 0, frame, 7, pdu.length);
      if (random.nextInt(4) == 0) {
        frame[random.nextInt(frame.length)] = (byte) random.nextInt(256);
      }
      byte[] answer = victim.feed(frame);
      assertThat(answer.length == 0 || answer.length >= 9).isTrue();
    }
  }

  @Test
  void bothRegistersOfAValueAreOfOneInstant() throws RegisterMap.NoSuchAddress {
    int[] count = {0};
    RegisterMap map =
        new RegisterMap().add(Table.INPUT, 0, 2, () -> RegisterMap.words(0x00010001 * ++count[0]));
    for (int i = 0; i < 3; i++) {
      int[] words = map.read(Table.INPUT, 0, 2);
      assertThat(words[0]).isEqualTo(words[1]);
    }
  }

  private static byte[] bytes(String hex) {
    return HexFormat.of().parseHex(hex.replace(" ", ""));
  }

  private static String hex(byte[] bytes) {
    return HexFormat.ofDelimiter(" ").withUpperCase().formatHex(bytes);
  }
}
