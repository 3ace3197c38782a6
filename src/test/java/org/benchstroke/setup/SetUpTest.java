package org.benchstroke.setup;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.UnaryOperator;
import javax.xml.parsers.DocumentBuilderFactory;
import org.benchstroke.io.instrument.LimitSwitch;
import org.benchstroke.procedure.Caution;
import org.benchstroke.record.Entry;
import org.benchstroke.record.Event;
import org.benchstroke.record.Journal;
import org.benchstroke.record.StepId;
import org.benchstroke.setup.SetUpAnswer.Kind;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.w3c.dom.Document;

class SetUpTest {
  private static VirtualSetUp whole;

  @BeforeAll
  static void once() {
    whole = VirtualSetUp.of("healthy-b").whole();
  }

  @Test
  void allStepsOfTheTradeAreDoneInItsOrder() {
    assertThat(whole.setUp().state().ended().orElseThrow().how()).isEqualTo("complete");
    assertThat(whole.record().events(Event.SetUpStep.class).map(Event.SetUpStep::step))
        .containsExactly(
            "in_hand",
            "coupling",
            "mate",
            "wire",
            "stops_out",
            "to_closed",
            "closed_switch",
            "closed_auxiliary",
            "closed_stop",
            "to_open",
            "open_switch",
            "open_auxiliary",
            "open_stop",
            "mid_travel",
            "power_on",
            "calibration",
            "display",
            "heater_and_wheel",
            "ready");
    assertThat(whole.record().events(Event.SetUpStep.class).map(Event.SetUpStep::outcome))
        .containsOnly("done");
  }

  /** What the simulator knows of its own cams, which nothing at the bench can see. */
  @Test
  void tripAndLeadAreThoseOfTheCamsWithinTheirU() {
    for (LimitSwitch which : LimitSwitch.values()) {
      Map<String, Double> figures = whole.step(stepOf(which)).figures();
      double truth = whole.simulated().hand().camDegrees(which);
      assertThat(figures.get("trip_deg"))
          .as(which.key())
          .isCloseTo(truth, within(figures.get("trip_u_deg")));
      // A tenth of a degree is what the step is to show.
      assertThat(figures.get("trip_u_deg")).isBetween(0.02, 0.25);
    }
    Map<String, Double> auxiliary = whole.step(StepKey.CLOSED_AUXILIARY).figures();
    double lead =
        whole.simulated().hand().camDegrees(LimitSwitch.CLOSED_AUXILIARY)
            - whole.simulated().hand().camDegrees(LimitSwitch.CLOSED);
    assertThat(auxiliary.get("lead_deg")).isCloseTo(lead, within(auxiliary.get("lead_u_deg")));
  }

  private static StepKey stepOf(LimitSwitch which) {
    return switch (which) {
      case CLOSED -> StepKey.CLOSED_SWITCH;
      case CLOSED_AUXILIARY -> StepKey.CLOSED_AUXILIARY;
      case OPEN -> StepKey.OPEN_SWITCH;
      case OPEN_AUXILIARY -> StepKey.OPEN_AUXILIARY;
    };
  }

  @Test
  void aSwitchIsPlacedWhereTheOrderSaysThoughItsCamWasAnywhere() {
    Map<String, Double> figures = whole.step(StepKey.OPEN_SWITCH).figures();
    assertThat(figures.get("trip_deg")).isCloseTo(90.4, within(0.5));
    assertThat(whole.step(StepKey.CLOSED_STOP).figures())
        .containsEntry("turns_back", 2.0)
        .containsEntry("stop_margin_deg", 1.6);
  }

  @Test
  void itsOwnCalibrationIsTimedAndWatched() {
    Event.SetUpStep step = whole.step(StepKey.CALIBRATION);
    assertThat(step.facts())
        .containsEntry("first_way", "closing")
        .containsEntry("result", "succeeded");
    double closed = whole.simulated().hand().camDegrees(LimitSwitch.CLOSED);
    double open = whole.simulated().hand().camDegrees(LimitSwitch.OPEN);
    // The end switches cut the motor; the stem, which sticks, ends within a degree of them.
    assertThat(step.figures().get("lowest_deg")).isCloseTo(closed, within(1.0));
    assertThat(step.figures().get("highest_deg")).isCloseTo(open, within(1.0));
    // Half the travel, the whole travel at 15 s for 90°, and a second at the first end.
    assertThat(step.figures().get("calibration_s")).isCloseTo(7.5 + 1.0 + 15.0, within(3.0));
  }

  @Test
  void nothingIsShownBeforeItIsInTheRecord() {
    List<Event> written = new ArrayList<>();
    VirtualSetUp setUp =
        VirtualSetUp.of(VirtualSetUp.simulation("healthy-b"), memory -> spied(memory, written));
    setUp.until(
        state -> {
          long trips =
              written.stream()
                  .filter(Event.SwitchPassed.class::isInstance)
                  .map(Event.SwitchPassed.class::cast)
                  .filter(e -> e.made() && e.by().equals("wheel"))
                  .count();
          if (state.live().trip().isPresent()) {
            assertThat(trips).isPositive();
          }
          assertThat(state.done().size())
              .isEqualTo(written.stream().filter(Event.SetUpStep.class::isInstance).count());
          return state.step().key() == StepKey.CLOSED_STOP;
        });
  }

  private static Journal spied(Journal memory, List<Event> written) {
    return journal(
        memory,
        event -> {
          written.add(event);
          return event;
        });
  }

  private static Journal journal(Journal memory, UnaryOperator<Event> before) {
    return new Journal() {
      @Override
      public Entry write(Optional<StepId> step, Event event) throws IOException {
        Entry entry = memory.write(step, event);
        Event unused = before.apply(event);
        return entry;
      }

      @Override
      public void takeOver(List<Entry> earlier) throws IOException {
        memory.takeOver(earlier);
      }

      @Override
      public long originNanos() {
        return memory.originNanos();
      }

      @Override
      public void close() throws IOException {
        memory.close();
      }
    };
  }

  @Test
  void whereTheRecordFailsTheBenchIsLeftSafe() {
    VirtualSetUp setUp =
        VirtualSetUp.of(
            VirtualSetUp.simulation("healthy-b"),
            memory ->
                journal(
                    memory,
                    event -> {
                      if (event instanceof Event.Powered on && on.on()) {
                        throw new UncheckedIOException(new IOException("disk full"));
                      }
                      return event;
                    }));
    setUp.whole();
    SetUpState.End end = setUp.setUp().state().ended().orElseThrow();
    assertThat(end.how()).isEqualTo("fault");
    assertThat(end.reason()).contains("disk full");
    assertThat(end.power()).isEqualTo("off by the relay");
    assertThat(setUp.simulated().motorSupply()).isFalse();
  }

  @Test
  void anAnswerToAnotherQuestionDoesNotCount() {
    VirtualSetUp setUp = VirtualSetUp.of("healthy-b");
    long asked = setUp.setUp().state().number();
    assertThat(setUp.setUp().state().caution()).contains(Caution.SESSION);
    setUp.setUp().answer(asked, new SetUpAnswer.Read());
    SetUpState after = setUp.setUp().answer(asked, new SetUpAnswer.Done());
    assertThat(after.step().key()).isEqualTo(StepKey.IN_HAND);
    assertThat(after.notice()).contains("asked before");
    assertThat(setUp.setUp().answer(after.number(), new SetUpAnswer.Done()).step().key())
        .isEqualTo(StepKey.COUPLING);
  }

  @Test
  void nothingIsDoneBeforeItsCautionWasRead() {
    VirtualSetUp setUp = VirtualSetUp.of("healthy-b");
    assertThat(setUp.say(new SetUpAnswer.Done()).notice()).contains("caution");
    assertThat(setUp.setUp().state().allowed())
        .containsExactlyInAnyOrder(Kind.READ, Kind.SKIP, Kind.CAME_SET_UP, Kind.STOP);
  }

  @Test
  void thePowerComesOnByAWordOfItsOwnAndAfterTheSafeSignal() {
    VirtualSetUp setUp =
        VirtualSetUp.of("healthy-b").until(s -> s.step().key() == StepKey.POWER_ON);
    for (SetUpAnswer answer : List.of(new SetUpAnswer.Read(), new SetUpAnswer.Done())) {
      assertThat(setUp.say(answer).powerOn()).isFalse();
      assertThat(setUp.simulated().motorSupply()).isFalse();
    }
    assertThat(setUp.say(new SetUpAnswer.Move()).powerOn()).isTrue();
    assertThat(setUp.simulated().motorSupply()).isTrue();
    List<Event> last =
        setUp.record().entries().stream()
            .map(Entry::event)
            .filter(e -> e instanceof Event.MadeSafe || e instanceof Event.Powered)
            .toList();
    assertThat(last.get(last.size() - 2)).isInstanceOf(Event.MadeSafe.class);
    assertThat(((Event.MadeSafe) last.get(last.size() - 2)).confirmed()).isTrue();
    assertThat(last.get(last.size() - 1)).isEqualTo(new Event.Powered(true, "relay"));
  }

  @Test
  void whereverItIsStoppedTheSignalIsSafeAndTheRelayOff() {
    for (StepKey key : List.of(StepKey.IN_HAND, StepKey.OPEN_SWITCH, StepKey.DISPLAY)) {
      VirtualSetUp setUp = VirtualSetUp.of("healthy-b").to(key);
      SetUpState last = setUp.say(new SetUpAnswer.Stop("stopped by a test"));
      assertThat(last.ended().orElseThrow().how()).isEqualTo("stopped");
      assertThat(setUp.simulated().motorSupply()).isFalse();
      Event.Closed closed = setUp.record().closed().orElseThrow();
      assertThat(closed.reason()).isEqualTo("stopped by a test");
      assertThat(setUp.record().events(Event.MadeSafe.class).reduce((a, b) -> b).orElseThrow())
          .extracting(Event.MadeSafe::confirmed)
          .isEqualTo(true);
    }
  }

  @Test
  void aStepIsSkippedWithAReasonOnlyAndKeepsWhatWasMeasured() {
    VirtualSetUp setUp =
        VirtualSetUp.of("healthy-b")
            .to(StepKey.CLOSED_SWITCH)
            .until(state -> state.live().trip().isPresent());
    assertThat(setUp.say(new SetUpAnswer.Skip("  ")).notice()).contains("reason");
    setUp.say(new SetUpAnswer.Skip("the cam screw is worn"));
    Event.SetUpStep step = setUp.step(StepKey.CLOSED_SWITCH);
    assertThat(step.outcome()).isEqualTo("skipped");
    assertThat(step.reason()).isEqualTo("the cam screw is worn");
    assertThat(step.figures()).containsKey("trip_deg");
  }

  @Test
  void aUnitThatCameSetUpIsReadyByOneKey() {
    VirtualSetUp setUp = VirtualSetUp.of("healthy-b");
    SetUpState last = setUp.say(new SetUpAnswer.CameSetUp());
    assertThat(last.ended().orElseThrow().how()).isEqualTo("came set up");
    assertThat(setUp.record().events(Event.SetUpStep.class).map(Event.SetUpStep::outcome))
        .containsOnly("came set up")
        .hasSize(19);
  }

  @Test
  void aCamThatIsTurnedMakesWhatWasMeasuredBeforeVoid() {
    VirtualSetUp setUp =
        VirtualSetUp.of("healthy-b")
            .to(StepKey.CLOSED_SWITCH)
            .until(state -> state.live().reset().isPresent());
    setUp.hands().work(setUp.setUp().state());
    setUp.simulated().hand().letGo();
    setUp.wait(1.5, state -> {});
    setUp.simulated().hand().turnCam(LimitSwitch.CLOSED, 30.0, 20.0);
    setUp.wait(2.0, state -> {});
    Live live = setUp.setUp().state().live();
    assertThat(live.made()).contains(true);
    assertThat(live.trip()).isEmpty();
    assertThat(live.reset()).isEmpty();
  }

  @Test
  void aSwitchThatTripsTooLateIsNotDone() {
    VirtualSetUp setUp = VirtualSetUp.of("healthy-b").to(StepKey.OPEN_SWITCH);
    var hand = setUp.simulated().hand();
    hand.turnCam(LimitSwitch.OPEN, 92.0, 1000.0);
    setUp.wait(1.5, state -> {});
    hand.turnWheel(94.0, 2.0);
    setUp.wait(3.0, state -> {});
    hand.turnWheel(88.0, 2.0);
    setUp.wait(4.0, state -> {});
    Live live = setUp.setUp().state().live();
    assertThat(live.hint()).contains(Hint.LATE);
    assertThat(live.trip().orElseThrow().degrees()).isCloseTo(92.0, within(0.3));
    assertThat(setUp.setUp().state().allowed()).doesNotContain(Kind.DONE);
    assertThat(setUp.say(new SetUpAnswer.Done()).notice()).contains("does not trip where");
    // Hands put it right by what the screen says.
    setUp.until(state -> state.step().key() == StepKey.OPEN_AUXILIARY);
    assertThat(setUp.step(StepKey.OPEN_SWITCH).figures().get("trip_deg"))
        .isCloseTo(90.4, within(0.5));
  }

  @Test
  void withoutInstrumentsItIsDoneByEarAndEye() {
    VirtualSetUp setUp =
        VirtualSetUp.of(
                "healthy-b",
                Path.of("demo-data/benches/wall-bench.toml"),
                SetUpTest::withoutSwitches,
                UnaryOperator.identity())
            .to(StepKey.CLOSED_SWITCH);
    assertThat(setUp.setUp().state().live().hint()).contains(Hint.BY_EAR);
    assertThat(setUp.setUp().state().step().fields())
        .extracting(Field::key)
        .containsExactly(FieldKey.TRIP_DEG, FieldKey.RESET_DEG);
    setUp.whole();
    assertThat(setUp.setUp().state().ended().orElseThrow().whole()).isTrue();
    double lead = setUp.step(StepKey.CLOSED_AUXILIARY).figures().get("lead_deg");
    assertThat(lead).isCloseTo(2.4, within(0.5));
    assertThat(setUp.step(StepKey.CLOSED_SWITCH).figures()).doesNotContainKey("trip_u_deg");
  }

  @Test
  void withSwitchesAndNoAngleTheLampIsLiveAndTheAnglesAreTyped() {
    VirtualSetUp setUp =
        VirtualSetUp.of(
                "healthy-b",
                Path.of("demo-data/benches/wall-bench.toml"),
                UnaryOperator.identity(),
                UnaryOperator.identity())
            .to(StepKey.CLOSED_SWITCH);
    assertThat(setUp.setUp().state().live().made()).contains(false);
    assertThat(setUp.setUp().state().live().hint()).contains(Hint.CAM_ON);
    assertThat(setUp.setUp().state().allowed()).doesNotContain(Kind.DONE);
    setUp.until(state -> state.step().key() == StepKey.CLOSED_AUXILIARY);
    assertThat(setUp.step(StepKey.CLOSED_SWITCH).outcome()).isEqualTo("done");
  }

  private static String withoutSwitches(String bench) {
    String without = bench.replaceAll("\\[instrument\\.switches\\..*\\n.*\\n.*\\n", "");
    return without.replace(", \"switches\"", "").replace("\"switches\", ", "");
  }

  @Test
  void whatTheDisplaySaysIsComparedWithTheOrder() {
    VirtualSetUp setUp = VirtualSetUp.of("healthy-b");
    setUp.hands().says(FieldKey.DIRECTION, "reverse");
    setUp.hands().says(FieldKey.DEAD_BAND_PCT, "0,8");
    setUp.hands().says(FieldKey.VOLTAGE_V, "231");
    setUp.whole();
    List<Difference> differences = setUp.setUp().state().differences();
    assertThat(differences)
        .extracting(Difference::sentence)
        .containsExactly(
            "dead band on the unit's display: noted is 0.8 %, ordered is 0.5 %",
            "direction on the unit's display: noted is reverse, ordered is direct");
    assertThat(differences).extracting(Difference::blocks).containsExactly(false, true);
  }

  @Test
  void whatCantBeTypedIsSaidAndNothingIsLost() {
    VirtualSetUp setUp = VirtualSetUp.of("healthy-b").to(StepKey.DISPLAY);
    SetUpState state = setUp.say(new SetUpAnswer.Done(Map.of(FieldKey.DEAD_BAND_PCT, "wide")));
    assertThat(state.step().key()).isEqualTo(StepKey.DISPLAY);
    assertThat(state.notice())
        .isEqualTo("Dead band: found \"wide\", allowed is a number, 0 to 100 %");
  }

  @Test
  void aPneumaticUnitHasAirAndSpringAndNoMotorSteps() {
    VirtualSetUp setUp = VirtualSetUp.of("pneumatic-sound");
    List<Step> steps = setUp.plan().steps();
    assertThat(steps)
        .extracting(Step::key)
        .doesNotContain(StepKey.HEATER_AND_WHEEL, StepKey.MID_TRAVEL);
    assertThat(steps.stream().flatMap(s -> s.cautions().stream()))
        .contains(Caution.AIR, Caution.SPRING, Caution.AIR_BY_HAND, Caution.AIR_ON)
        .doesNotContain(Caution.HAND_WHEEL, Caution.MOTION, Caution.MOTION_BY_RELAY);
    setUp.whole();
    assertThat(setUp.setUp().state().ended().orElseThrow().whole()).isTrue();
  }

  @Test
  void everyPictureIsThereAndSaysWhatItShows() throws Exception {
    for (Picture picture : Picture.values()) {
      Document svg =
          DocumentBuilderFactory.newInstance()
              .newDocumentBuilder()
              .parse(new ByteArrayInputStream(picture.svg().getBytes(StandardCharsets.UTF_8)));
      assertThat(svg.getElementsByTagName("title").item(0).getTextContent())
          .as(picture.name())
          .isEqualTo(picture.alt());
      assertThat(svg.getElementsByTagName("script").getLength()).isZero();
    }
  }
}
