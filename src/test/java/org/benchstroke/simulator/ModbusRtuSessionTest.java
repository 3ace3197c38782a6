package org.benchstroke.simulator;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayOutputStream;
import java.util.ArrayList;
import java.util.HexFormat;
import java.util.List;
import java.util.Map;
import java.util.SplittableRandom;
import java.util.stream.Stream;
import org.benchstroke.ReferenceData;
import org.benchstroke.io.modbus.Register.Table;
import org.benchstroke.io.modbus.RtuFrame;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Slaves on a line against the specification's frames, and against noise. */
class ModbusRtuSessionTest {
  private static final HexFormat HEX = HexFormat.ofDelimiter(" ").withUpperCase();
  private static final int UNIT = 0x11;

  private final int[] coils = new int[200];
  private final int[] holding = new int[200];
  private final ModbusRtuSession session =
      new ModbusRtuSession(Map.of(UNIT, map(), 0x12, new RegisterMap()));

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
    byte[] bytes = HEX.parseHex(hex);
    for (int i = 0; i < count; i++) {
      bits[from + i] = (bytes[i / 8] >> (i % 8)) & 1;
    }
  }

  // Source: MODBUS Application Protocol Specification V1.1b3, examples of 6.1..6.12 and 7; seen.
  // The address and the CRC around them are computed.
  static Stream<String[]> examples() {
    List<String[]> examples = new ArrayList<>();
    String request = "";
    for (Map<String, String> row : ReferenceData.csv("modbus-frames.csv")) {
      if (row.get("kind").equals("request")) {
        request = row.get("rtu_frame_unit_0x11");
      } else if (row.get("function").matches("0[1-6]|0F|10|01x")) {
        examples.add(new String[] {request, row.get("rtu_frame_unit_0x11")});
      }
    }
    assertThat(examples).hasSize(9);
    return examples.stream();
  }

  private String feed(byte[] bytes, int chunk) {
    ByteArrayOutputStream answers = new ByteArrayOutputStream();
    Chunks.of(bytes, chunk).forEach(part -> answers.writeBytes(session.feed(part)));
    return HEX.formatHex(answers.toByteArray());
  }

  @ParameterizedTest
  @MethodSource("examples")
  void answersTheSpecificationsExamplesAtEveryChunkSize(String request, String reply) {
    byte[] bytes = HEX.parseHex(request);
    for (int chunk = 1; chunk <= bytes.length; chunk++) {
      assertThat(feed(bytes, chunk)).isEqualTo(reply);
    }
  }

  @Test
  void saysNothingToABadCrcToAForeignUnitAndToAll() {
    byte[] bad = HEX.parseHex("11 04 00 08 00 01 B2 99");
    assertThat(feed(bad, bad.length)).isEmpty();
    byte[] foreign = RtuFrame.of(0x13, HEX.parseHex("04 00 08 00 01"));
    assertThat(feed(foreign, 3)).isEmpty();
    byte[] all = RtuFrame.of(0, HEX.parseHex("06 00 01 00 03"));
    assertThat(feed(all, all.length)).isEmpty();
    assertThat(holding[1]).isEqualTo(3);
    byte[] nonsense = RtuFrame.of(0, HEX.parseHex("06 7F FF 00 03"));
    assertThat(feed(nonsense, nonsense.length)).isEmpty();
  }

  @Test
  void aFunctionThatIsNotKnownIsRefused() {
    byte[] request = HEX.parseHex("11 08 00 00 A5 37 D8 1D");
    assertThat(feed(request, request.length))
        .isEqualTo(HEX.formatHex(RtuFrame.of(UNIT, new byte[] {(byte) 0x88, 0x01})));
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "00",
        "FF FF FF",
        "11 10 00 00 00 40 80 00 01",
        "11 04 00",
        "11 04 00 08 00 01 B2"
      })
  void aRequestBehindNoiseIsAnswered(String noise) {
    byte[] before = HEX.parseHex(noise);
    byte[] request = HEX.parseHex("11 04 00 08 00 01 B2 98");
    assertThat(feed(before, before.length)).isEmpty();
    assertThat(feed(request, request.length)).isEqualTo("11 04 02 00 0A F8 F4");
  }

  @Test
  void survivesNoiseAndForgetsIt() {
    SplittableRandom random = new SplittableRandom(7);
    int[] before = holding.clone();
    for (int i = 0; i < 2000; i++) {
      byte[] noise = new byte[1 + random.nextInt(300)];
      random.nextBytes(noise);
      session.feed(noise);
      assertThat(session.closed()).isFalse();
    }
    byte[] request = HEX.parseHex("11 04 00 08 00 01 B2 98");
    assertThat(HEX.formatHex(session.feed(request))).endsWith("11 04 02 00 0A F8 F4");
    assertThat(holding).as("noise writes nothing").isEqualTo(before);
  }

  @Test
  void everyUnitOnTheLineHasItsOwnMap() {
    byte[] other = RtuFrame.of(0x12, HEX.parseHex("04 00 08 00 01"));
    assertThat(feed(other, 1))
        .isEqualTo(HEX.formatHex(RtuFrame.of(0x12, new byte[] {(byte) 0x84, 0x02})));
  }
}
