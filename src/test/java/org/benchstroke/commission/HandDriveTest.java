package org.benchstroke.commission;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Deque;
import java.util.List;
import java.util.Optional;
import java.util.function.Consumer;
import org.benchstroke.procedure.Caution;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

class HandDriveTest {
  /** Polls between two typed lines: 20 s of the virtual clock at 100 ms. */
  private static final int PATIENCE = 200;

  private final HandRig rig = new HandRig();
  private final List<HandState> states = new ArrayList<>();
  private Consumer<HandState> watch = state -> {};

  @Test
  void currentIsSetReadBackAndLeftSafe() {
    HandResult result = drive("12", "q");

    assertThat(result.how()).isEqualTo(HandResult.How.DONE);
    assertThat(result.clean()).isTrue();
    assertThat(result.safe().detail()).contains("reads back 4.000 mA");
    assertThat(result.power()).startsWith("off by the relay");
    HandState last = states.get(states.size() - 1);
    assertThat(last.set().milliamps()).isEqualTo(12.0);
    assertThat(last.position().value().percent()).isCloseTo(50.0, within(0.6));
    assertThat(last.loop().orElseThrow().value().milliamps()).isCloseTo(12.0, within(0.02));
    assertThat(last.switches()).isNotEmpty();
    assertThat(last.line()).contains("set 12.000 mA = 50.0 %", "position ", "none made");
  }

  @Test
  void cautionsComeBeforePowerAndPowerBeforeMotion() {
    drive("50%", "q");
    assertThat(rig.cautions)
        .containsExactly(Caution.SESSION, Caution.MATING, Caution.MOTION_BY_RELAY);
    int off = rig.told.indexOf("motor power: off by the relay");
    int counted = rig.told.indexOf("count-down");
    int on = rig.told.indexOf("motor power: on by the relay");
    assertThat(off).isNotNegative().isLessThan(counted);
    assertThat(counted).isLessThan(on);
    // The safe signal is the first and the last current that is ever set.
    List<String> currents = currents();
    assertThat(currents.get(0)).isEqualTo("SOURce:CURRent 0.004000");
    assertThat(currents.get(currents.size() - 1)).isEqualTo("SOURce:CURRent 0.004000");
    assertThat(currents).contains("SOURce:CURRent 0.012000");
  }

  @Test
  void withoutARelayAPersonSwitchesThePower() {
    rig.benchText =
        text ->
            text.replace(", \"motor power\"", "")
                .replaceAll("\\[instrument\\.motor_power]\ntable = .*\naddress = .*\n", "");
    HandResult result = drive("q");
    assertThat(rig.cautions)
        .containsExactly(Caution.SESSION, Caution.MATING, Caution.POWER_OFF, Caution.MOTION);
    assertThat(result.power()).contains("by hand");
  }

  @Test
  void outsideTheLimitsNothingIsSet() {
    drive("21.6", "3.4", "110%", "0", "q");
    assertThat(rig.told).filteredOn(line -> line.startsWith("refused")).hasSize(4);
    assertThat(currents()).containsOnly("SOURce:CURRent 0.004000");
  }

  @Test
  void currentsOfASignalLossAskFirst() {
    drive("3.5", "3.9", "4", "3.9", "q");
    assertThat(rig.cautions).filteredOn(c -> c == Caution.SIGNAL_LOSS).hasSize(2);
    assertThat(currents()).contains("SOURce:CURRent 0.003500", "SOURce:CURRent 0.003900");
  }

  @Test
  void lossThatIsNotAcknowledgedEndsTheDrive() {
    rig.refused = Caution.SIGNAL_LOSS;
    HandResult result = drive("3.5", "q");
    assertThat(result.how()).isEqualTo(HandResult.How.STOPPED);
    assertThat(result.safe().confirmed()).isTrue();
    assertThat(currents()).doesNotContain("SOURce:CURRent 0.003500");
  }

  @Test
  void stepsGoByTheirSizeAndStopAtTheLimit() {
    drive("+", "step 0.5", "+", "-", "-", "safe", "21.3", "+", "q");
    assertThat(currents())
        .containsSubsequence(
            "SOURce:CURRent 0.004160",
            "SOURce:CURRent 0.004660",
            "SOURce:CURRent 0.004160",
            "SOURce:CURRent 0.003660",
            "SOURce:CURRent 0.004000",
            "SOURce:CURRent 0.021300");
    assertThat(rig.told).anyMatch(line -> line.startsWith("refused: 21.800 mA"));
  }

  @ParameterizedTest
  @EnumSource(
      value = Caution.class,
      names = {"SESSION", "MATING"})
  void refusedBeforeAnythingIsProvenLeavesTheSourceAlone(Caution caution) {
    rig.refused = caution;
    HandResult result = drive("12", "q");
    assertThat(result.how()).isEqualTo(HandResult.How.STOPPED);
    assertThat(result.safe().confirmed()).isFalse();
    assertThat(rig.sent).isEmpty();
  }

  @Test
  void refusedMotionNeverSwitchesThePowerOn() {
    rig.refused = Caution.MOTION_BY_RELAY;
    HandResult result = drive("12", "q");
    assertThat(result.how()).isEqualTo(HandResult.How.STOPPED);
    assertThat(result.safe().confirmed()).isTrue();
    assertThat(rig.sent).noneMatch(request -> request.endsWith("050000FF00"));
  }

  @Test
  void anotherInstrumentIsNeverMadeToSource() {
    rig.benchText = text -> text.replace("serial = \"900101\"", "serial = \"900102\"");
    HandResult result = drive("12", "q");
    assertThat(result.how()).isEqualTo(HandResult.How.NOT_PROVEN);
    assertThat(result.reason()).contains("a different one");
    assertThat(result.safe().detail()).contains("not proven");
    assertThat(currents()).isEmpty();
    assertThat(rig.sent).noneMatch(request -> request.contains("050000"));
  }

  @Test
  void stopEndsWithTheSafeSignal() {
    watch =
        state -> {
          if (states.size() == 30) {
            rig.stop.stop("stopped at the terminal");
          }
        };
    HandResult result = drive("12");
    assertThat(result.how()).isEqualTo(HandResult.How.STOPPED);
    assertThat(result.safe().confirmed()).isTrue();
    assertThat(result.power()).startsWith("off by the relay");
    assertThat(result.clean()).isFalse();
  }

  @Test
  void lostLinkEndsAndSaysThatTheSafeSignalIsNotConfirmed() {
    watch = state -> rig.cut = states.size() >= 30;
    HandResult result = drive("12");
    assertThat(result.how()).isEqualTo(HandResult.How.LINK_LOST);
    assertThat(result.safe().confirmed()).isFalse();
    assertThat(result.safe().detail()).contains("not confirmed");
    assertThat(result.power()).contains("NOT confirmed off");
  }

  @Test
  void failureOfTheProgramLeavesTheUnitSafeToo() {
    watch =
        state -> {
          throw new IllegalStateException("the screen failed");
        };
    HandResult result = drive("12");
    assertThat(result.how()).isEqualTo(HandResult.How.FAULT);
    assertThat(result.safe().confirmed()).isTrue();
  }

  private List<String> currents() {
    return rig.sent.stream().filter(s -> s.startsWith("SOURce:CURRent ")).toList();
  }

  /** Types each line after the unit has come to rest. */
  private HandResult drive(String... lines) {
    Deque<String> left = new ArrayDeque<>(Arrays.asList(lines));
    int[] polls = {0};
    HandDrive.Typed typed =
        () -> ++polls[0] % PATIENCE == 0 ? Optional.ofNullable(left.pollFirst()) : Optional.empty();
    return new HandDrive(
            rig.hands(),
            typed,
            new HandDrive.Screen() {
              @Override
              public void told(String line) {
                rig.told.add(line);
              }

              @Override
              public void shown(HandState state) {
                states.add(state);
                watch.accept(state);
              }
            },
            0.16)
        .drive();
  }
}
