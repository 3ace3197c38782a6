package org.benchstroke.commission;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.OptionalDouble;
import org.benchstroke.core.quantity.Position;
import org.benchstroke.io.instrument.Role;
import org.benchstroke.io.modbus.Register;
import org.benchstroke.procedure.Caution;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class MapSurveyTest {
  private static final List<Position> TWO =
      List.of(Position.ofPercent(25.0), Position.ofPercent(75.0));

  private final HandRig rig = new HandRig();

  @Test
  void deviceThatSwapsItsWordsIsFoundOut() {
    rig.replies = MapSurveyTest::swapFloats;
    MapSurvey.Read read = survey().driven(TWO);
    assertThat(read.end().clean()).as(read.end().reason()).isTrue();
    MapFindings found = MapInference.infer(read.question().orElseThrow());
    MapCandidate best = found.best().orElseThrow();
    assertThat(best.register().order()).isEqualTo(Register.Order.CDAB);
    assertThat(best.register().type()).isEqualTo(Register.Type.F32);
    assertThat(found.ties()).isEmpty();

    MapProposal proposal =
        new MapProposal("position input", Role.POSITION_TRANSMITTER, read.question().get(), found);
    assertThat(proposal.toml()).contains("order = \"CDAB\"", "# ", "known 8.0000 mA");
    String whole = proposal.inFile(rig.text()).orElseThrow();
    assertThat(whole).contains("order = \"CDAB\"");
    // Everything but the map stays as it was.
    assertThat(whole.lines().filter(line -> line.contains("address = \"tcp")).toList())
        .isEqualTo(rig.text().lines().filter(line -> line.contains("address = \"tcp")).toList());
  }

  @Test
  void cautionsComeFirstAndTheSafeSignalLast() {
    HandResult end = survey().driven(TWO).end();
    assertThat(rig.cautions)
        .containsExactly(Caution.SESSION, Caution.MATING, Caution.MOTION_BY_RELAY);
    assertThat(end.safe().confirmed()).isTrue();
    assertThat(end.power()).startsWith("off by the relay");
  }

  @Test
  void rightMapStays() {
    MapSurvey.Read read = survey().driven(TWO);
    MapQuestion question = read.question().orElseThrow();
    assertThat(MapInference.infer(question).best().orElseThrow().sameAs(question.inFile()))
        .isTrue();
  }

  @Test
  void typedValuesMoveNothing() {
    // The unit stands still, so the second value can't be explained by what is read.
    MapSurvey.Read read =
        survey().typed(2, (point, points, unit) -> OptionalDouble.of(point == 1 ? 10.4 : 16.0));
    assertThat(rig.cautions).isEmpty();
    assertThat(rig.sent).isNotEmpty().noneMatch(s -> s.startsWith("SOURce"));
    assertThat(rig.sent).noneMatch(s -> s.contains("050000"));
    assertThat(MapInference.infer(read.question().orElseThrow()).best()).isEmpty();
  }

  @Test
  void nothingTypedEndsIt() {
    MapSurvey.Read read = survey().typed(2, (point, points, unit) -> OptionalDouble.empty());
    assertThat(read.question()).isEmpty();
    assertThat(read.end().how()).isEqualTo(HandResult.How.STOPPED);
  }

  @Test
  void deadRegisterIsTold() {
    rig.benchText =
        text ->
            text.replaceFirst(
                "(?m)^table = \"input\"\naddress = 0", "table = \"input\"\naddress = 5000");
    MapSurvey.Read read = survey().driven(TWO);
    assertThat(read.question()).isEmpty();
    assertThat(read.end().reason()).contains("no register at or next to address 5000");
    assertThat(read.end().safe().confirmed()).isTrue();
  }

  /** The device has 0 and 1 alone and refuses whatever reads more; the file says something near. */
  @ParameterizedTest
  @ValueSource(ints = {1, 2, 3})
  void aRegisterNextToTheOneInTheFileIsFound(int address) {
    rig.benchText =
        text ->
            text.replaceFirst(
                "(?m)^table = \"input\"\naddress = 0", "table = \"input\"\naddress = " + address);
    MapSurvey.Read read = survey().driven(TWO);
    assertThat(read.end().clean()).as(read.end().reason()).isTrue();
    MapCandidate best = MapInference.infer(read.question().orElseThrow()).best().orElseThrow();
    assertThat(best.register().address()).isZero();
    assertThat(best.register().type()).isEqualTo(Register.Type.F32);
  }

  @Test
  void rolesWithoutAMapAreNamed() {
    assertThat(MapSurvey.hindrance(rig.file(), Role.POSITION_TRANSMITTER)).isEmpty();
    assertThat(MapSurvey.hindrance(rig.file(), Role.LOOP_METER))
        .hasValueSatisfying(why -> assertThat(why).contains("does not speak Modbus"));
    assertThat(MapSurvey.hindrance(rig.file(), Role.ANGLE_REFERENCE))
        .hasValueSatisfying(why -> assertThat(why).contains("no instrument"));
    assertThat(MapSurvey.hindrance(rig.file(), Role.SWITCHES)).isPresent();
  }

  private MapSurvey survey() {
    return new MapSurvey(rig.hands(), Role.POSITION_TRANSMITTER);
  }

  /** A reply to function 04 with one float gets its two registers turned round. */
  private static byte[] swapFloats(byte[] reply) {
    if (reply.length != 13 || reply[7] != 4) {
      return reply;
    }
    byte[] swapped = reply.clone();
    System.arraycopy(reply, 9, swapped, 11, 2);
    System.arraycopy(reply, 11, swapped, 9, 2);
    return swapped;
  }
}
