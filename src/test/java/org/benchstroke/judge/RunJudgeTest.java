package org.benchstroke.judge;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.benchstroke.procedure.LossWay;
import org.benchstroke.record.Entry;
import org.benchstroke.record.Event;
import org.benchstroke.record.RunFault;
import org.benchstroke.unit.FailAction;
import org.benchstroke.unit.MeasureKind;
import org.junit.jupiter.api.Test;

class RunJudgeTest {

  private static Judgement judgement(JudgedRun run, MeasureKind kind, Truth truth) {
    return run.judgements().stream()
        .filter(j -> j.measure().kind() == kind && j.measure().truth() == truth)
        .findFirst()
        .orElseThrow();
  }

  private static AsOrdered order(JudgedRun run, String what) {
    return run.orders().stream().filter(o -> o.what().equals(what)).findFirst().orElseThrow();
  }

  @Test
  void aCleanUnitPasses() {
    JudgedRun run = new RecordFixture().wholeRun().judge();
    assertThat(run.reason())
        .isEqualTo(
            "Every limit and every order is met. Of the readings taken: each point was met once, so"
                + " how the unit scatters is not in U.");
    assertThat(run.verdict()).isEqualTo(Word.PASS);
    assertThat(run.passed()).isTrue();
    assertThat(run.complete()).isTrue();
    assertThat(run.feedback()).hasSize(8);
    assertThat(run.stem()).isEmpty();
    assertThat(run.sentences()).containsExactly("Stem not proven: no angle reference was fitted.");
    assertThat(run.tests()).allMatch(t -> t.outcome().equals("complete") && t.attempts() == 1);
    assertThat(run.orders()).hasSize(6).allMatch(o -> o.word() == Word.PASS);

    Judgement h = judgement(run, MeasureKind.HYSTERESIS_PLUS_DEAD_BAND, Truth.FEEDBACK);
    assertThat(h.measure().value().orElseThrow()).isCloseTo(0.1, within(0.01));
    Judgement time = judgement(run, MeasureKind.STROKE_TIME_OPENING, Truth.CLOCK);
    assertThat(time.measure().value().orElseThrow()).isCloseTo(15.0, within(0.05));
    assertThat(time.measure().note()).startsWith("n = 2");
    assertThat(judgement(run, MeasureKind.STROKE_ASYMMETRY, Truth.CLOCK).probability()).isPresent();
    Judgement span = judgement(run, MeasureKind.SPAN_ERROR, Truth.FEEDBACK);
    assertThat(span.limit()).isEmpty();
    assertThat(span.word()).isEmpty();
    assertThat(span.measure().value()).isPresent();
  }

  /**
   * The budget of one point by hand, from the invented data sheet: ±(0.02 % of reading + 2 µA) at
   * source and meter, 1 µA steps, 6.25 % a mA.
   */
  @Test
  void theBudgetOfAPoint() {
    JudgedRun run = new RecordFixture().wholeRun().judge();
    Measure up50 =
        run.judgements().stream()
            .map(Judgement::measure)
            .filter(m -> m.place().words().equals("50 % up"))
            .findFirst()
            .orElseThrow();
    double source = (0.0002 * 12.0 + 0.002) * 6.25;
    double meter = (0.0002 * (4.0 + 0.16 * 49.95) + 0.002) * 6.25;
    double step = 0.0005 * 6.25;
    double s2 = 20.0 / 19.0 * 0.003 * 0.003;
    double expected =
        Math.sqrt((source * source + meter * meter + 2 * step * step) / 3.0 + s2 / 20.0);
    assertThat(up50.budget().orElseThrow().combinedStandard()).isCloseTo(expected, within(1e-6));
    assertThat(up50.budget().orElseThrow().components()).hasSize(5);
    assertThat(up50.value().orElseThrow()).isCloseTo(-0.05, within(1e-9));
  }

  @Test
  void noStateOfOneMissingPointPasses() {
    RecordFixture skipped = new RecordFixture();
    skipped.skippedPoint = "travel 50 up";
    notPassed(skipped, "50 % up", "the record holds no reading");

    RecordFixture unsettled = new RecordFixture();
    unsettled.unsettledPoint = "travel 75 down";
    notPassed(unsettled, "75 % down", "did not settle");

    RecordFixture unclean = new RecordFixture();
    unclean.uncleanPoint = "travel 100 up";
    notPassed(unclean, "100 % up", "not a clean approach");

    RecordFixture gap = new RecordFixture();
    gap.gapPoint = "travel 25 up";
    notPassed(gap, "25 % up", "gap of 0.6");

    RecordFixture saturated = new RecordFixture();
    saturated.saturatedPoint = "travel 0 down";
    notPassed(saturated, "0 % down", "saturated sample");
  }

  private static void notPassed(RecordFixture fixture, String where, String why) {
    JudgedRun run = fixture.wholeRun().judge();
    assertThat(run.verdict()).isEqualTo(Word.NO_RESULT);
    assertThat(run.passed()).isFalse();
    assertThat(run.feedback()).hasSize(7);
    assertThat(run.judgements())
        .anyMatch(
            j ->
                j.measure().place().words().equals(where)
                    && j.measure().note().startsWith(why)
                    && j.measure().value().isEmpty()
                    && j.word().equals(Optional.of(Word.NO_RESULT)));
    Judgement h = judgement(run, MeasureKind.HYSTERESIS_PLUS_DEAD_BAND, Truth.FEEDBACK);
    assertThat(h.measure().value()).isEmpty();
  }

  @Test
  void aRetakenApproachCounts() {
    RecordFixture fixture = new RecordFixture();
    fixture.retakenPoint = "travel 25 up";
    fixture.wholeRun();
    assertThat(fixture.entries.stream().map(Entry::event))
        .anyMatch(e -> e instanceof Event.Rested rested && !rested.clean());
    assertThat(fixture.judge().passed()).isTrue();
  }

  @Test
  void anInterruptedRunDoesNotPass() {
    JudgedRun run = new RecordFixture().exercise().strokes().travel(1).loss().judge();
    assertThat(run.complete()).isFalse();
    assertThat(run.passed()).isFalse();
    assertThat(run.verdict()).isEqualTo(Word.NO_RESULT);
    assertThat(run.reason()).contains("interrupted");
  }

  @Test
  void everyPrefixOfARecordDoesNotPass() {
    RecordFixture fixture = new RecordFixture().wholeRun();
    List<Entry> all = List.copyOf(fixture.entries);
    for (int length = 1; length < all.size(); length += 97) {
      fixture.entries.clear();
      fixture.entries.addAll(all.subList(0, length));
      assertThat(fixture.judge().passed()).as("first %d lines", length).isFalse();
    }
  }

  @Test
  void stoppedFaultyOrNotSoundDoesNotPass() {
    for (String how : List.of("stopped", "fault", "preflight failed")) {
      RecordFixture fixture = new RecordFixture();
      fixture.exercise().strokes().travel(1).loss().close(how, "why");
      JudgedRun run = fixture.judge();
      assertThat(run.verdict()).isEqualTo(Word.NO_RESULT);
      assertThat(run.complete()).isFalse();
      assertThat(run.reason()).contains(how).contains("why");
    }
    RecordFixture broken = new RecordFixture().wholeRun();
    broken.flaws.add("broken chain at line 17");
    JudgedRun run = broken.judge();
    assertThat(run.verdict()).isEqualTo(Word.NO_RESULT);
    assertThat(run.complete()).isFalse();
    assertThat(run.reason()).contains("broken chain at line 17");
  }

  @Test
  void aBlockedPreflightOrAWrongInstrumentDoesNotPass() {
    RecordFixture blocked = new RecordFixture();
    blocked.add(new Event.Checked("loop", "blocks", "17.14 mA at 20 mA", Map.of()));
    assertThat(blocked.wholeRun().judge().passed()).isFalse();
    RecordFixture wrong = new RecordFixture();
    wrong.add(new Event.Identified("source", "serial 1", "serial 2", false));
    assertThat(wrong.wholeRun().judge().reason()).contains("source is serial 2");
  }

  @Test
  void aVoidAttemptDoesNotCountAndTheNextOneDoes() {
    RecordFixture fixture = new RecordFixture();
    fixture.exercise().strokes().voidTravel(1, "gap of 0.4 s");
    JudgedRun run = fixture.travel(2).loss().close("complete", "").judge();
    assertThat(run.passed()).isTrue();
    assertThat(run.tests().get(2)).isEqualTo(new TestSummary("travel error", "complete", 2, ""));

    RecordFixture only = new RecordFixture();
    JudgedRun voided =
        only.exercise().strokes().voidTravel(1, "gap").loss().close("complete", "").judge();
    assertThat(voided.verdict()).isEqualTo(Word.NO_RESULT);
    assertThat(voided.complete()).isFalse();
    assertThat(voided.reason()).contains("travel error").contains("void (gap)");
  }

  @Test
  void aFaultThatMakesFiguresWorthlessVoidsAnAttempt() {
    RecordFixture fixture = new RecordFixture();
    fixture.exercise().strokes().began(2, "travel error", 1);
    fixture.add(new Event.Faulted(RunFault.IMPOSSIBLE_SLEW, "input", "62 % within 0.1 s"));
    fixture.ended(2, "travel error", 1, "complete", "");
    JudgedRun run = fixture.loss().close("complete", "").judge();
    assertThat(run.tests().get(2).outcome()).isEqualTo("void");
    assertThat(run.passed()).isFalse();
  }

  @Test
  void aMissingTestDoesNotPass() {
    JudgedRun run =
        new RecordFixture().exercise().strokes().travel(1).close("complete", "").judge();
    assertThat(run.verdict()).isEqualTo(Word.NO_RESULT);
    assertThat(run.tests().get(3).outcome()).isEqualTo("not done");
    assertThat(order(run, "signal loss: lost").word()).isEqualTo(Word.NO_RESULT);
  }

  @Test
  void reversedActionFails() {
    RecordFixture fixture = new RecordFixture();
    fixture.reversed = true;
    fixture.began(0, "exercise", 1);
    fixture.approach("exercise start", 0.0, "none", 0);
    fixture.approach("exercise opening", 100.0, "up", 1);
    fixture.ended(0, "exercise", 1, "not done", "action reversed");
    JudgedRun run = fixture.close("action reversed", "ran to 0 % at setpoint 100 %").judge();
    assertThat(run.verdict()).isEqualTo(Word.FAIL);
    assertThat(run.passed()).isFalse();
    assertThat(order(run, "action").word()).isEqualTo(Word.FAIL);
    assertThat(order(run, "action").found()).startsWith("reversed: setpoint +100 %, position -99.");
    assertThat(run.sentences().get(0)).startsWith("Action is not as ordered: reversed");
    assertThat(run.reason()).contains("action").contains("others could not be judged");
  }

  @Test
  void aLossThatIsWrongOnOpenLoopAloneIsNamed() {
    RecordFixture fixture = new RecordFixture();
    fixture.onLoss.put(LossWay.OPEN_LOOP, p -> p);
    JudgedRun run = fixture.wholeRun().judge();
    assertThat(run.verdict()).isEqualTo(Word.FAIL);
    assertThat(run.reason()).isEqualTo("Not met: signal loss: open loop.");
    assertThat(order(run, "signal loss: low").word()).isEqualTo(Word.PASS);
    assertThat(order(run, "signal loss: low").found()).contains("would do the same");
    assertThat(order(run, "signal loss: lost").word()).isEqualTo(Word.PASS);
    assertThat(order(run, "signal loss: open loop").found()).contains("did not move");
    assertThat(run.sentences().get(0))
        .startsWith("Not as ordered on signal loss (open loop only): from 50.0 %");
  }

  @Test
  void aUnitThatTakesALowSignalForLostFailsThere() {
    RecordFixture fixture = new RecordFixture();
    fixture.failAction = FailAction.OPEN;
    for (LossWay way : LossWay.values()) {
      fixture.onLoss.put(way, p -> 100.0);
    }
    JudgedRun run = fixture.wholeRun().judge();
    assertThat(order(run, "signal loss: low").word()).isEqualTo(Word.FAIL);
    assertThat(order(run, "signal loss: lost").word()).isEqualTo(Word.PASS);
    assertThat(order(run, "signal loss: open loop").word()).isEqualTo(Word.PASS);
  }

  @Test
  void stayingIsWithinOnePercent() {
    RecordFixture stays = new RecordFixture();
    stays.failAction = FailAction.STAY;
    stays.onLoss.put(LossWay.LOST, p -> p + 0.4);
    stays.onLoss.put(LossWay.OPEN_LOOP, p -> p + 3.0);
    JudgedRun run = stays.wholeRun().judge();
    assertThat(order(run, "signal loss: lost").word()).isEqualTo(Word.PASS);
    assertThat(order(run, "signal loss: open loop").word()).isEqualTo(Word.FAIL);
  }

  @Test
  void tooLateOnLossFails() {
    RecordFixture late = new RecordFixture();
    late.lossDelaySeconds = 6.0;
    JudgedRun run = late.wholeRun().judge();
    assertThat(order(run, "signal loss: lost").word()).isEqualTo(Word.FAIL);
    assertThat(order(run, "signal loss: lost").found()).contains("allowed 10.2 s");
  }

  /** Scenario of the trade: 1.0 % of slack after the sensor. */
  @Test
  void hiddenSlackIsSeenByTheAngleReferenceOnly() {
    RecordFixture blind = new RecordFixture();
    blind.stem = (p, side) -> p - side * 0.5;
    JudgedRun unproven = blind.wholeRun().judge();
    assertThat(unproven.passed()).isTrue();
    assertThat(unproven.stemProven()).isFalse();
    assertThat(unproven.sentences()).contains("Stem not proven: no angle reference was fitted.");

    RecordFixture seeing = new RecordFixture();
    seeing.angleReference = true;
    seeing.stem = (p, side) -> p - side * 0.5;
    JudgedRun proven = seeing.wholeRun().judge();
    Judgement stem = judgement(proven, MeasureKind.HYSTERESIS_PLUS_DEAD_BAND, Truth.STEM);
    assertThat(stem.measure().value().orElseThrow()).isBetween(0.9, 1.15);
    assertThat(judgement(proven, MeasureKind.HYSTERESIS_PLUS_DEAD_BAND, Truth.FEEDBACK).word())
        .contains(Word.PASS);
    assertThat(proven.verdict()).isEqualTo(Word.FAIL);
    assertThat(proven.stemProven()).isTrue();
    assertThat(proven.sentences()).hasSize(1);
    assertThat(proven.sentences().get(0))
        .startsWith("Feedback is clean")
        .endsWith("slack after the sensor.");
  }

  @Test
  void aShiftedZeroAndAWrongSpanAreNamed() {
    RecordFixture zero = new RecordFixture();
    zero.feedback = (p, side) -> p + 1.5;
    JudgedRun shifted = zero.wholeRun().judge();
    assertThat(shifted.verdict()).isEqualTo(Word.FAIL);
    assertThat(shifted.reason()).isEqualTo("Not met: travel error at 25 % up, 50 % up and 6 more.");
    assertThat(shifted.sentences().get(0))
        .isEqualTo("Every point reads high by +1.5 %: the zero is shifted.");
    assertThat(judgement(shifted, MeasureKind.ZERO_ERROR, Truth.FEEDBACK).measure().value())
        .hasValueSatisfying(v -> assertThat(v).isCloseTo(1.5, within(1e-6)));

    RecordFixture span = new RecordFixture();
    span.feedback = (p, side) -> p * 1.02;
    assertThat(span.wholeRun().judge().sentences().get(0))
        .isEqualTo(
            "The error grows with the setpoint, from 0.0 % at 0 % to +2.0 % at 100 %: the span is"
                + " off.");
  }

  @Test
  void aSwitchThatCutsShortIsNamed() {
    RecordFixture fixture = new RecordFixture();
    fixture.openSwitchMade = true;
    fixture.feedback = (p, side) -> Math.min(92.1, p);
    JudgedRun run = fixture.wholeRun().judge();
    assertThat(run.verdict()).isEqualTo(Word.FAIL);
    assertThat(run.sentences())
        .contains(
            "Position stops at 92.1 % with the open switch made: the switch cuts the motor before"
                + " the end of travel.");
    assertThat(judgement(run, MeasureKind.STROKE_TIME_OPENING, Truth.CLOCK).measure().note())
        .isEqualTo("position never reached 95 % of the stroke");
    assertThat(run.reason()).contains("Not met:").contains("2 others could not be judged");
  }

  @Test
  void oneBoxForSourceAndReadbackIsFlagged() {
    RecordFixture fixture = new RecordFixture();
    fixture.oneBox = true;
    JudgedRun run = fixture.wholeRun().judge();
    assertThat(run.sentences()).anyMatch(f -> f.contains("one box"));
    assertThat(judgement(run, MeasureKind.TRAVEL_ERROR, Truth.FEEDBACK).measure().note())
        .contains("one box");
  }

  @Test
  void withoutLimitsNothingPasses() {
    RecordFixture fixture = new RecordFixture();
    fixture.limits = List.of();
    JudgedRun run = fixture.wholeRun().judge();
    assertThat(run.verdict()).isEqualTo(Word.NO_RESULT);
    assertThat(run.reason()).contains("no limits");
    assertThat(run.judgements()).allMatch(j -> j.word().isEmpty());
  }

  @Test
  void severalCyclesAreAveraged() {
    RecordFixture fixture = new RecordFixture();
    fixture.cycles = 3;
    JudgedRun run = fixture.wholeRun().judge();
    assertThat(run.passed()).isTrue();
    assertThat(run.feedback()).hasSize(24);
    assertThat(judgement(run, MeasureKind.TRAVEL_ERROR, Truth.FEEDBACK).measure().value())
        .hasValueSatisfying(v -> assertThat(v).isCloseTo(-0.05, within(1e-6)));
  }

  @Test
  void aSlowUnitFailsOnTimeAlone() {
    RecordFixture fixture = new RecordFixture();
    fixture.strokeSeconds = 18.0;
    JudgedRun run = fixture.wholeRun().judge();
    assertThat(judgement(run, MeasureKind.STROKE_TIME_OPENING, Truth.CLOCK).measure().value())
        .hasValueSatisfying(v -> assertThat(v).isCloseTo(18.0, within(0.05)));
    assertThat(run.reason()).contains("stroke time, opening");
    assertThat(run.verdict()).isEqualTo(Word.FAIL);
  }

  @Test
  void aFrozenReadingIsNoReading() {
    RecordFixture fixture = new RecordFixture();
    fixture.feedback = (p, side) -> 0.0;
    JudgedRun run = fixture.wholeRun().judge();
    assertThat(run.passed()).isFalse();
    assertThat(order(run, "action").word()).isEqualTo(Word.NO_RESULT);
  }
}
