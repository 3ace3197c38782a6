package org.benchstroke.judge;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import java.util.function.Consumer;
import org.benchstroke.core.quantity.Position;
import org.benchstroke.procedure.LossWay;
import org.benchstroke.procedure.Procedure;
import org.benchstroke.procedure.TestSpec;
import org.benchstroke.record.Event;
import org.benchstroke.record.Leg;
import org.benchstroke.record.RunRecord;
import org.benchstroke.tests.Catalogue;
import org.benchstroke.tests.endurance.Endurance;
import org.benchstroke.tests.holds.Holds;
import org.benchstroke.tests.loss.SignalLoss;
import org.benchstroke.tests.power.PowerLoss;
import org.benchstroke.tests.ramp.SlowRamp;
import org.benchstroke.tests.steps.Steps;
import org.benchstroke.tests.travel.TravelError;
import org.benchstroke.unit.DecisionRule;
import org.benchstroke.unit.FailAction;
import org.benchstroke.unit.Limit;
import org.benchstroke.unit.MeasureKind;
import org.junit.jupiter.api.Test;

/**
 * Records of units that are faulty or were not watched, all else in them being sound: none passes,
 * and each says why. Made up here.
 */
class FalsePassTest {
  private static final Position MIDDLE = Position.ofPercent(50.0);
  private static final SignalLoss OPEN_LOOP = new SignalLoss(MIDDLE, List.of(LossWay.OPEN_LOOP));

  private static RecordFixture sound(Limit... more) {
    RecordFixture fixture = new RecordFixture().exercise().strokes().travel(1);
    List<Limit> limits = new ArrayList<>(RecordFixture.usualLimits());
    limits.addAll(List.of(more));
    fixture.limits = limits;
    return fixture;
  }

  private static Limit most(MeasureKind kind, double value) {
    return new Limit(
        kind, OptionalDouble.empty(), OptionalDouble.of(value), DecisionRule.GUARD_BAND_U);
  }

  /** The three usual tests and one more, in which that happens. */
  private static JudgedRun judge(RecordFixture f, TestSpec last, Consumer<RecordFixture> during) {
    List<TestSpec> tests = new ArrayList<>(f.procedure().tests().subList(0, 3));
    tests.add(last);
    f.tests = tests;
    f.began(3, last.name(), 1);
    during.accept(f);
    f.ended(3, last.name(), 1, "complete", "").close("complete", "");
    return Catalogue.judge()
        .judge(
            new RunRecord(f.entries, f.flaws), f.bench(), f.unit(), new Procedure("p", "1", tests));
  }

  private static void notPassed(JudgedRun run, String says) {
    assertThat(run.passed()).as(run.reason()).isFalse();
    assertThat(run.verdict()).as(run.reason()).isNotIn(Word.PASS, Word.CONDITIONAL_PASS);
    assertThat(run.reason() + run.judgements() + run.orders()).contains(says);
  }

  private static void watched(RecordFixture f, String point, double at, double from) {
    f.step(point, 0);
    f.add(
        new Event.Watched(
            point, at, true, "", RecordFixture.nanos(from), RecordFixture.nanos(f.now)));
  }

  private static void hold(RecordFixture f, double at, double amplitude, int samples) {
    f.approach("hold start", at, "none", 0);
    double from = f.now - 1e-3;
    double middle = f.position;
    for (int i = 0; i < samples; i++) {
      double noise = i % 2 == 0 ? 0.003 : -0.003;
      f.sample(middle + amplitude * Math.sin(i * 0.1 * 2 * Math.PI / 3.0) + noise, "good");
    }
    watched(f, "hold " + (int) at, at, from);
  }

  private static Holds holds(double... points) {
    List<Position> places = new ArrayList<>();
    for (double each : points) {
      places.add(Position.ofPercent(each));
    }
    return new Holds(places, 60);
  }

  @Test
  void aDeadUnitIsNotAtRestWhereItIsHeld() {
    RecordFixture f = sound(most(MeasureKind.HUNTING_PEAK_TO_PEAK, 0.5));
    f.feedback = (to, side) -> 0.05;
    notPassed(judge(f, holds(25), r -> hold(r, 25, 0.0, 610)), "not at its setpoint");
  }

  @Test
  void aPointThatIsHeldTwiceIsJudgedTwice() {
    RecordFixture f = sound(most(MeasureKind.HUNTING_PEAK_TO_PEAK, 0.5));
    JudgedRun run =
        judge(
            f,
            holds(25, 50, 75, 50),
            r -> {
              hold(r, 25, 0.0, 610);
              hold(r, 50, 1.0, 610);
              hold(r, 75, 0.0, 610);
              hold(r, 50, 0.0, 610);
            });
    notPassed(run, "limit cycle");
    assertThat(run.orders()).extracting(AsOrdered::what).contains("hunting at 50 %, time 2");
  }

  @Test
  void aHoldThatWasHardlyWatchedHasNoResult() {
    RecordFixture f = sound();
    JudgedRun run =
        judge(
            f,
            holds(50),
            r -> {
              r.approach("hold start", 50, "none", 0);
              double from = r.now - 1e-3;
              for (int i = 0; i < 25; i++) {
                r.sample(r.position, "good");
              }
              r.now += 60;
              watched(r, "hold 50", 50, from);
            });
    notPassed(run, " s at the end");
  }

  private static void strokes(RecordFixture f, boolean settles) {
    f.approach("endurance start", 0, "none", 0);
    for (int cycle = 1; cycle <= 20; cycle++) {
      boolean sticks = cycle == 12;
      f.feedback = (to, side) -> to > 50 && sticks ? 60.0 : to - side * 0.05;
      f.unsettledPoint = sticks && !settles ? "endurance opening" : "";
      f.approach("endurance opening", 100, "up", cycle);
      f.unsettledPoint = "";
      f.approach("endurance closing", 0, "down", cycle);
    }
  }

  @Test
  void aStrokeThatEndsHalfWayIsNoGap() {
    for (boolean settles : new boolean[] {true, false}) {
      RecordFixture f =
          sound(
              RecordFixture.symmetric(MeasureKind.STROKE_TIME_DRIFT, 1.0),
              RecordFixture.symmetric(MeasureKind.END_POSITION_DRIFT, 50.0));
      JudgedRun run = judge(f, new Endurance(20), r -> strokes(r, settles));
      notPassed(run, "cycle 12: position never reached 95 % of the stroke");
    }
  }

  @Test
  void aUnitThatStandsInTheMiddleHasNoLag() {
    RecordFixture f =
        sound(
            RecordFixture.symmetric(MeasureKind.RAMP_LAG, 2.0), most(MeasureKind.RAMP_STARTS, 60));
    SlowRamp ramp = new SlowRamp(Position.ofPercent(0), Position.ofPercent(100), 6);
    JudgedRun run =
        judge(
            f,
            ramp,
            r -> {
              for (String point : new String[] {"ramp there", "ramp back"}) {
                r.approach("ramp start", 50, "none", 0);
                double from = r.now - 1e-3;
                for (int i = 0; i <= 900; i++) {
                  double to = point.endsWith("there") ? i / 9.0 : 100 - i / 9.0;
                  long asked = RecordFixture.nanos(r.now);
                  double milliamps = 4 + 0.16 * to;
                  r.add(new Event.Commanded(to, milliamps, milliamps, asked, asked + 1));
                  r.sample(50 + (i % 2 == 0 ? 0.003 : -0.003), "good");
                }
                watched(r, point, 0, from);
              }
            });
    notPassed(run, "it does not follow");
  }

  @Test
  void aStepThatWasNotAnsweredHasItsError() {
    RecordFixture f = sound(RecordFixture.symmetric(MeasureKind.STEADY_STATE_ERROR, 0.6));
    Steps steps = new Steps(MIDDLE, List.of(1.0), OptionalDouble.empty());
    JudgedRun run =
        judge(
            f,
            steps,
            r -> {
              r.approach("step start", 39.5, "none", 0);
              r.approach("step start", 49.5, "up", 0);
              r.feedback = (to, side) -> 49.45;
              for (String way : List.of("up", "down")) {
                r.approach("step 1 " + way, way.equals("up") ? 50.5 : 49.5, way, 1);
                for (int i = 0; i < 30; i++) {
                  r.sample(r.position + (i % 2 == 0 ? 0.003 : -0.003), "good");
                }
              }
            });
    assertThat(run.verdict()).as(run.reason()).isEqualTo(Word.FAIL);
    assertThat(run.reason()).contains("steady-state error at 1 % up");
  }

  @Test
  void anEndThatTheTestDoesNotComeToHasNoError() {
    List<Position> points = List.of(25.0, 50.0, 75.0).stream().map(Position::ofPercent).toList();
    RecordFixture f =
        sound(
            RecordFixture.symmetric(MeasureKind.ZERO_ERROR, 0.5),
            RecordFixture.symmetric(MeasureKind.SPAN_ERROR, 0.5));
    TestSpec travel = new TravelError(points, 1);
    JudgedRun run =
        judge(
            new RecordFixture().exercise().strokes(),
            travel,
            r -> {
              r.approach("travel start", 50.0, "none", 0);
              r.approach("travel settle", 25.0, "down", 0);
              r.approach("travel 50 up", 50, "up", 1);
              r.approach("travel 75 up", 75, "up", 1);
              r.approach("travel 50 down", 50, "down", 1);
              r.approach("travel 25 down", 25, "down", 1);
            });
    assertThat(run.judgements())
        .filteredOn(j -> j.measure().kind() == MeasureKind.ZERO_ERROR)
        .filteredOn(j -> j.measure().note().contains("does not come to 0 %"))
        .hasSize(1);
    assertThat(f.limits).hasSizeGreaterThan(2);
  }

  @Test
  void oneCycleThatStraysIsNotHiddenByTheMean() {
    RecordFixture f = new RecordFixture();
    f.cycles = 10;
    f.exercise().strokes();
    int[] visits = {0};
    f.feedback =
        (to, side) -> {
          visits[0] += to == 50.0 ? 1 : 0;
          boolean strays = to == 50.0 && side > 0 && visits[0] == 9;
          return to + (strays ? 2.5 : -side * 0.05);
        };
    JudgedRun run = f.travel(1).loss().close("complete", "").judge();
    assertThat(run.verdict()).as(run.reason()).isEqualTo(Word.FAIL);
    assertThat(run.reason())
        .contains("travel error at 50 % up, cycle ")
        .contains("highest reading");
  }

  private static void lost(RecordFixture f, double seconds) {
    f.approach("loss start", 50.0, "none", 0);
    long asked = RecordFixture.nanos(f.now);
    f.now += seconds;
    f.add(new Event.Disturbed("open loop", 0, true, asked, RecordFixture.nanos(f.now)));
    f.now += 0.02;
  }

  private static void rested(RecordFixture f, double from) {
    f.step("loss open loop", 0);
    f.add(
        new Event.Rested(
            "loss open loop",
            Leg.ARRIVAL,
            50,
            "none",
            0,
            true,
            true,
            RecordFixture.nanos(from),
            RecordFixture.nanos(f.now),
            0.05));
  }

  @Test
  void aDeadUnitAtTheOrderedEndDoesNotFailSafe() {
    RecordFixture f = sound();
    f.feedback = (to, side) -> 0.05;
    f.loss().close("complete", "");
    notPassed(f.judge(), "it stood at 0.1 %, not at 50.0 %");
  }

  @Test
  void aLateStartIsNoPass() {
    RecordFixture f = sound();
    f.lossDelaySeconds = 2.5;
    f.loss().close("complete", "");
    notPassed(f.judge(), "must start within");
  }

  @Test
  void aSlowSourceLeavesTheInstantOfTheLossOpen() {
    JudgedRun run =
        judge(
            sound(),
            OPEN_LOOP,
            f -> {
              lost(f, 5.0);
              f.hold(1.5);
              f.moveTo(0.05);
              f.rest("loss open loop", 50.0, "none", 0, 5.0);
              f.approach("loss recovery", 50.0, "none", 0);
            });
    notPassed(run, "took 5.0 s to take the signal away");
  }

  @Test
  void aUnitThatStaysClosedDoesNotRecover() {
    JudgedRun run =
        judge(
            sound(),
            OPEN_LOOP,
            f -> {
              lost(f, 0.01);
              f.hold(0.5);
              f.moveTo(0.05);
              f.rest("loss open loop", 50.0, "none", 0, 5.0);
              f.feedback = (to, side) -> 0.05;
              f.approach("loss recovery", 50.0, "none", 0);
            });
    notPassed(run, "came to rest at 0.1 %, setpoint 50.0 %");
  }

  @Test
  void peggedReadingsDoNotProveThatItStays() {
    RecordFixture fixture = sound();
    fixture.failAction = FailAction.STAY;
    JudgedRun run =
        judge(
            fixture,
            OPEN_LOOP,
            f -> {
              lost(f, 0.01);
              double from = f.now;
              for (int i = 0; i < 60; i++) {
                f.sample(50, "saturated");
              }
              rested(f, from);
              f.approach("loss recovery", 50.0, "none", 0);
            });
    notPassed(run, "saturated sample");
  }

  @Test
  void whatWasNotSampledAfterTheLossHasNoResult() {
    JudgedRun run =
        judge(
            sound(),
            OPEN_LOOP,
            f -> {
              lost(f, 0.01);
              f.now += 8.5;
              double from = f.now;
              for (int i = 0; i < 60; i++) {
                f.sample(0.05, "good");
              }
              rested(f, from);
              f.approach("loss recovery", 50.0, "none", 0);
            });
    notPassed(run, "at the beginning");
  }

  private static JudgedRun powerLoss(double odd, boolean moves) {
    PowerLoss spec = new PowerLoss(MIDDLE, 6, List.of(PowerLoss.Moment.AT_REST));
    return judge(
        sound(RecordFixture.symmetric(MeasureKind.POWER_LOSS_DRIFT, 0.5)),
        spec,
        f -> {
          f.approach("power start", 50, "none", 0);
          double from = f.now - 1e-3;
          for (int i = 0; i < 60; i++) {
            f.sample(i == 55 ? odd : 50 + (i % 2 == 0 ? 0.003 : -0.003), "good");
          }
          watched(f, "power loss at rest", 50, from);
          f.rest("power loss at rest, returned", 50, "none", 0, 5);
          if (!moves) {
            f.feedback = (to, side) -> 50.0;
          }
          f.approach("power loss at rest, moved", 70, "up", 0);
        });
  }

  @Test
  void aUnitThatStaysDeadDoesNotComeBack() {
    assertThat(powerLoss(50.0, true).passed()).isTrue();
    notPassed(powerLoss(50.0, false), "at 50.0 %, setpoint 70.0 %");
  }

  @Test
  void aSampleThatIsNoNumberIsNoReading() {
    notPassed(powerLoss(Double.NaN, true), "saturated sample");
  }

  @Test
  void anOrderThatWasNotTestedIsNotCalledMet() {
    RecordFixture f = sound();
    f.close("complete", "");
    JudgedRun run =
        Catalogue.judge()
            .judge(
                new RunRecord(f.entries, f.flaws),
                f.bench(),
                f.unit(),
                new Procedure("p", "1", f.procedure().tests().subList(0, 3)));
    assertThat(run.passed()).isTrue();
    assertThat(run.reason()).contains("loss of the signal was not");
  }
}
