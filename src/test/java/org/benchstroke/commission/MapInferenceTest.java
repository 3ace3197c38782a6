package org.benchstroke.commission;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;

import java.nio.ByteBuffer;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.stream.Stream;
import org.benchstroke.commission.MapCandidate.ScaleKind;
import org.benchstroke.io.modbus.Register;
import org.benchstroke.io.modbus.Register.Order;
import org.benchstroke.io.modbus.Register.Table;
import org.benchstroke.io.modbus.Registers;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.MethodSource;

class MapInferenceTest {
  private static final int AT = 2;

  /** Noise of a few µA, as a list so that every test sees the same. */
  private static final double[] NOISE = {0.0012, -0.0021, 0.0004, 0.0033, -0.0008};

  /** What the bench file wrongly says in most tests. */
  private static final Register IN_FILE = register(Register.Type.F32, Order.ABCD, 1.0, 0.0);

  static Stream<Arguments> everyWayToWriteMilliamps() {
    return Stream.of(Register.Type.F32, Register.Type.I32, Register.Type.U32)
        .flatMap(type -> Arrays.stream(Order.values()).map(order -> Arguments.of(type, order)));
  }

  @ParameterizedTest
  @MethodSource("everyWayToWriteMilliamps")
  void typeAndOrderAreFound(Register.Type type, Order order) {
    double scale = type == Register.Type.F32 ? 1.0 : 1e-5;
    Register truth = register(type, order, scale, 0.0);
    MapFindings found = MapInference.infer(milliamps(IN_FILE, truth));

    assertThat(found.best()).isPresent();
    MapCandidate best = found.best().get();
    assertThat(best.register().order()).isEqualTo(order);
    assertThat(best.register().scale()).isEqualTo(scale);
    assertThat(best.scaleKind()).isEqualTo(ScaleKind.PLAIN);
    assertThat(all(found)).anyMatch(candidate -> candidate.sameAs(truth));
    assertThat(best.values().get(0)).isBetween(7.99, 8.01);
    assertThat(best.values().get(1)).isBetween(15.99, 16.01);
    // A signed and an unsigned number read the same here: that is said, not guessed away.
    if (type == Register.Type.F32) {
      assertThat(best.sameAs(truth)).isTrue();
      assertThat(found.ties()).isEmpty();
    } else {
      assertThat(found.ties()).hasSize(1);
    }
  }

  @ParameterizedTest
  @MethodSource("everyWayToWriteMilliamps")
  void mapThatIsRightStays(Register.Type type, Order order) {
    Register truth = register(type, order, type == Register.Type.F32 ? 1.0 : 1e-5, 0.0);
    MapFindings found = MapInference.infer(milliamps(truth, truth));
    assertThat(found.best()).hasValueSatisfying(best -> assertThat(best.sameAs(truth)).isTrue());
  }

  @ParameterizedTest
  @CsvSource({
    // scale and offset of a register that a data sheet would describe in these words
    "U16, 0.001, 0,                    µA in a register",
    "I16, 0.001, 0,                    the same, signed",
    "U16, 0.01, 0,                     hundredths of a mA",
    "U16, 0.00030518043793392844, 0,   0 to 65535 over 0 to 20 mA",
    "U16, 0.0002441443503471733, 4,    0 to 65535 over 4 to 20 mA",
    "I16, 0.0005787037037037037, 4,    15 bits with 18.5 % headroom over 4 to 20 mA",
    "U16, 0.0016, 4,                   percent × 100",
  })
  void usualScalesOfOneRegisterAreFound(Register.Type type, double scale, double offset) {
    Register truth = register(type, Order.ABCD, scale, offset);
    MapFindings found = MapInference.infer(milliamps(IN_FILE, truth));
    assertThat(found.best()).isPresent();
    assertThat(found.best().get().scaleKind()).isNotEqualTo(ScaleKind.POINTS_ONLY);
    assertThat(all(found)).anyMatch(candidate -> candidate.sameAs(truth));
  }

  @Test
  void swappedFloatOfTheScenarioIsSeen() {
    // 42 48 00 00 is 50.0 and 41 C8 00 00 is 25.0 (IEEE 754); both arrive word-swapped.
    Register inFile = register(Register.Type.F32, Order.ABCD, 1.0, 0.0);
    List<KnownPoint> points =
        List.of(
            new KnownPoint(25.0, 2.0, List.of(List.of(0x0000, 0x41C8))),
            new KnownPoint(50.0, 2.0, List.of(List.of(0x0000, 0x4248))));
    MapFindings found = MapInference.infer(new MapQuestion(inFile, AT, "%", 0.0, 100.0, points));

    assertThat(found.best())
        .hasValueSatisfying(
            best -> {
              assertThat(best.sameAs(register(Register.Type.F32, Order.CDAB, 1.0, 0.0))).isTrue();
              assertThat(best.values()).containsExactly(25.0, 50.0);
            });
    assertThat(found.ties()).isEmpty();
  }

  @ParameterizedTest
  @EnumSource(Order.class)
  void addressThatIsOneOffIsFound(Order order) {
    Register truth = new Register(Table.INPUT, AT + 1, Register.Type.F32, order, 1.0, 0.0);
    MapFindings found = MapInference.infer(milliamps(IN_FILE, truth));
    assertThat(found.best())
        .hasValueSatisfying(best -> assertThat(best.sameAs(truth)).as(best.text()).isTrue());
  }

  @Test
  void signedAndUnsignedAreATie() {
    Register truth = register(Register.Type.U16, Order.ABCD, 0.001, 0.0);
    MapFindings found = MapInference.infer(milliamps(IN_FILE, truth));
    MapCandidate best = found.best().orElseThrow();
    assertThat(best.register().type()).isEqualTo(Register.Type.I16);
    assertThat(found.ties())
        .extracting(tie -> tie.register().type())
        .contains(Register.Type.U16)
        .doesNotContain(Register.Type.F32);
  }

  @Test
  void numberBeyondTheSignedRangeDecides() {
    // 65535 counts are 20 mA: 16 mA is 52428, which no i16 holds.
    Register truth = register(Register.Type.U16, Order.ABCD, 20.0 / 65_535, 0.0);
    MapFindings found = MapInference.infer(milliamps(IN_FILE, truth));
    assertThat(all(found))
        .filteredOn(candidate -> candidate.scaleKind() != ScaleKind.POINTS_ONLY)
        .extracting(candidate -> candidate.register().type())
        .containsOnly(Register.Type.U16);
  }

  @Test
  void unusualScaleIsOnlyALineThroughThePoints() {
    Register truth = register(Register.Type.U16, Order.ABCD, 0.00137, -1.5);
    MapFindings found = MapInference.infer(milliamps(IN_FILE, truth));
    MapCandidate best = found.best().orElseThrow();
    assertThat(best.scaleKind()).isEqualTo(ScaleKind.POINTS_ONLY);
    assertThat(best.register().scale()).isBetween(0.00136, 0.00138);
  }

  @Test
  void thirdPointRefutesALine() {
    List<KnownPoint> points = new ArrayList<>();
    Register curved = register(Register.Type.U16, Order.ABCD, 0.00137, -1.5);
    points.add(point(8.0, 8.0, curved));
    points.add(point(16.0, 16.0, curved));
    points.add(point(12.0, 14.5, curved));
    assertThat(MapInference.infer(milliamps(IN_FILE, points)).best()).isEmpty();
  }

  @Test
  void valueThatDoesNotChangeIsNoValue() {
    Register truth = register(Register.Type.F32, Order.ABCD, 1.0, 0.0);
    List<KnownPoint> points = List.of(point(8.0, 12.0, truth), point(16.0, 12.0, truth));
    assertThat(MapInference.infer(milliamps(IN_FILE, points)).best()).isEmpty();
  }

  @Test
  void valueThatMovesAtAPointIsNotTaken() {
    Register truth = register(Register.Type.F32, Order.ABCD, 1.0, 0.0);
    List<KnownPoint> points =
        List.of(
            new KnownPoint(8.0, 0.3, List.of(words(truth, 7.0), words(truth, 9.0))),
            new KnownPoint(16.0, 0.3, List.of(words(truth, 15.0), words(truth, 17.0))));
    assertThat(MapInference.infer(milliamps(IN_FILE, points)).best()).isEmpty();
  }

  @Test
  void notANumberIsNoValue() {
    List<Integer> nan = List.of(0, 0, 0x7FC0, 0x0000, 0, 0);
    List<KnownPoint> points =
        List.of(new KnownPoint(8.0, 0.3, List.of(nan)), new KnownPoint(16.0, 0.3, List.of(nan)));
    assertThat(MapInference.infer(milliamps(IN_FILE, points)).best()).isEmpty();
  }

  @Test
  void pointsTooNearAreRefused() {
    Register truth = register(Register.Type.F32, Order.ABCD, 1.0, 0.0);
    List<KnownPoint> points = List.of(point(8.0, 8.0, truth), point(9.0, 9.0, truth));
    assertThatIllegalArgumentException().isThrownBy(() -> milliamps(IN_FILE, points));
  }

  private static List<MapCandidate> all(MapFindings found) {
    List<MapCandidate> all = new ArrayList<>(found.best().stream().toList());
    all.addAll(found.ties());
    all.addAll(found.others());
    return all;
  }

  private static Register register(Register.Type type, Order order, double scale, double offset) {
    return new Register(Table.INPUT, AT, type, order, scale, offset);
  }

  private static MapQuestion milliamps(Register inFile, Register truth) {
    return milliamps(inFile, List.of(point(8.0, 8.0, truth), point(16.0, 16.0, truth)));
  }

  private static MapQuestion milliamps(Register inFile, List<KnownPoint> points) {
    return new MapQuestion(inFile, 0, "mA", 4.0, 20.0, points);
  }

  /** A point where a value is expected and another one, with its noise, really stands. */
  private static KnownPoint point(double expected, double real, Register truth) {
    return new KnownPoint(
        expected, 0.32, Arrays.stream(NOISE).mapToObj(n -> words(truth, real + n)).toList());
  }

  /** Six registers with the value among neighbours that hold something else. */
  private static List<Integer> words(Register truth, double value) {
    List<Integer> words = new ArrayList<>(List.of(7, 7, 7, 7, 7, 7));
    ByteBuffer bytes = ByteBuffer.wrap(Registers.bytes(truth, value));
    for (int i = truth.address(); bytes.hasRemaining(); i++) {
      words.set(i, Short.toUnsignedInt(bytes.getShort()));
    }
    return words;
  }
}
