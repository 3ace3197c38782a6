package org.benchstroke.commission;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Optional;
import org.benchstroke.io.instrument.Role;
import org.junit.jupiter.api.Test;

class SurveyTest {
  private final HandRig rig = new HandRig();

  @Test
  void soundBenchIsSound() throws InterruptedException {
    List<RoleVerdict> verdicts = survey(true);
    assertThat(verdicts).hasSize(5).allMatch(RoleVerdict::ok);
    assertThat(verdicts)
        .extracting(RoleVerdict::words)
        .allMatch(w -> w.contains("without an error"));
  }

  /** Nothing is sourced here, so that no current is no fault; the meter stands at its low end. */
  @Test
  void noCurrentIsNoFaultOfTheLoopMeter() throws InterruptedException {
    RoleVerdict meter = of(survey(true), Role.LOOP_METER);
    assertThat(meter.ok()).as(meter.words()).isTrue();
    assertThat(meter.words()).contains("no current flows: right while nothing is sourced");
  }

  @Test
  void nothingIsSourcedAndNothingSwitched() throws InterruptedException {
    survey(true);
    assertThat(rig.sent).isNotEmpty();
    // Questions and a clearing of the error queue; on Modbus functions 01 to 04 only.
    assertThat(rig.sent)
        .allMatch(s -> s.endsWith("?") || s.equals("*CLS") || s.matches("..0[1-4][0-9A-F]{8}"));
  }

  @Test
  void positionIsShownInMilliampsWhereTheUnitTypeIsUnknown() throws InterruptedException {
    try (Survey survey = new Survey(rig.file(), Optional.empty(), rig.links(), rig.clock)) {
      survey.open();
      survey.watch(1.0, rig.stop, states -> {});
      RoleState position = position(survey);
      assertThat(position.value()).matches("[0-9.]+ mA");
      assertThat(position.percent()).isEmpty();
      assertThat(position.roundTripMillis()).isPresent();
      assertThat(position.ageSeconds()).isPresent();
    }
  }

  @Test
  void wrongWordOrderIsNoPosition() throws InterruptedException {
    rig.benchText = text -> text.replaceFirst("order = \"ABCD\"", "order = \"CDAB\"");
    RoleVerdict position = of(survey(true), Role.POSITION_TRANSMITTER);
    assertThat(position.ok()).isFalse();
    assertThat(position.words()).contains("find-map");
  }

  @Test
  void anotherInstrumentIsSeen() throws InterruptedException {
    rig.benchText = text -> text.replace("serial = \"900202\"", "serial = \"900203\"");
    RoleVerdict meter = of(survey(true), Role.LOOP_METER);
    assertThat(meter.ok()).isFalse();
    assertThat(meter.words()).contains("a different one");
  }

  @Test
  void cutLinksAreCountedAndTold() throws InterruptedException {
    rig.cut = true;
    List<RoleVerdict> verdicts = survey(true);
    assertThat(verdicts).noneMatch(RoleVerdict::ok);
    assertThat(verdicts)
        .extracting(RoleVerdict::words)
        .allMatch(words -> words.contains("port gone") && words.contains("check the cable"));
  }

  @Test
  void sampleThatTakesLongerThanItsPeriodIsTold() throws InterruptedException {
    // Two exchanges of some 2 ms each are longer than no period that a file may state: so the
    // switches and the position are asked over a link that takes 20 ms more.
    rig.benchText = text -> text.replaceFirst("sample_period_ms = 100", "sample_period_ms = 10");
    rig.replies =
        bytes -> {
          rig.clock.waitUntil(rig.clock.nanos() + 20_000_000L);
          return bytes;
        };
    RoleVerdict position = of(survey(true), Role.POSITION_TRANSMITTER);
    assertThat(position.ok()).isFalse();
    assertThat(position.words()).contains("raise sample_period_ms");
  }

  private List<RoleVerdict> survey(boolean withUnitType) throws InterruptedException {
    try (Survey survey =
        new Survey(
            rig.file(),
            withUnitType ? Optional.of(rig.unitType()) : Optional.empty(),
            rig.links(),
            rig.clock)) {
      survey.open();
      survey.watch(2.0, rig.stop, states -> assertThat(states).isNotEmpty());
      return survey.verdicts();
    }
  }

  private static RoleState position(Survey survey) {
    return survey.states().stream()
        .filter(state -> state.role() == Role.POSITION_TRANSMITTER)
        .findFirst()
        .orElseThrow();
  }

  private static RoleVerdict of(List<RoleVerdict> verdicts, Role role) {
    return verdicts.stream().filter(v -> v.role() == role).findFirst().orElseThrow();
  }
}
