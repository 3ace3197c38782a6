package org.benchstroke.app.stations;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.file.Path;
import java.util.List;
import java.util.OptionalDouble;
import org.benchstroke.app.WrongRequest;
import org.benchstroke.judge.Word;
import org.benchstroke.record.Event;
import org.benchstroke.run.RunEnded;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/** A station as a state machine, on the virtual clock of a simulated bench. */
@Timeout(180)
class StationTest {
  private static final OptionalDouble AT_ONCE = OptionalDouble.empty();

  /** So slow that it is still on its way when a test stops it. */
  private static final OptionalDouble SLOW = OptionalDouble.of(1.0);

  @TempDir Path folder;

  private Driven driven(OptionalDouble pace, Manners manners) throws Exception {
    return Driven.floor(folder, 2, pace, manners);
  }

  @Test
  void aJobIsTakenShownAskedAboutRunAndJudged() throws Exception {
    try (Driven driven = driven(AT_ONCE, Driven.QUICK)) {
      Station station = driven.station();
      driven.floor().take(station, Driven.sheet("QT-0042"), Driven.ANN);
      Seen taken = station.seen();
      assertThat(taken.stage()).isEqualTo(Stage.TAKEN);
      assertThat(taken.holder()).contains(Driven.ANN);
      assertThat(taken.job().orElseThrow().echo().lines())
          .anyMatch(line -> line.value().equals("QT-0042"))
          .anyMatch(line -> line.value().startsWith("Brief"));

      station.start(Driven.ANN);
      Ended ended = driven.whole(station, Driven.ANN);

      assertThat(ended.outcome().orElseThrow().result().how()).isEqualTo(RunEnded.How.COMPLETE);
      assertThat(ended.aids().orElseThrow().run().record().events(Event.Cautioned.class))
          .isNotEmpty()
          .allMatch(said -> said.answer().endsWith(", at the bench screen, Ann"))
          .anyMatch(said -> said.answer().startsWith("key held"));
      assertThat(ended.attempts()).hasSize(1);
      Seen seen = station.seen();
      assertThat(seen.stage()).isEqualTo(Stage.ENDED);
      assertThat(seen.running().tests())
          .extracting(TestMark::mark)
          .containsOnly(TestMark.Mark.DONE);
      assertThat(seen.running().output()).isEqualTo(Output.SAFE);
      assertThat(seen.running().outputDetail()).contains("4.000 mA");
      // up 50 and 100, down 50 and 0
      assertThat(seen.running().readings()).hasSize(4);
      assertThat(seen.running().readings()).allMatch(r -> Math.abs(r.error()) < 0.2);
      assertThat(seen.running().beyond()).isFalse();
    }
  }

  /** The limit is 1 %, and the transmitter shows 1.5 % too much: demo-data and simulators. */
  @Test
  void whatIsBeyondTheLimitIsSeenOnTheWayAndStandsBesideTheNextAttempt() throws Exception {
    try (Driven driven = driven(AT_ONCE, Driven.QUICK)) {
      Station station = driven.station();
      driven.floor().take(station, Driven.sheet("QT-0043"), Driven.ANN);
      station.start(Driven.ANN);
      Ended found = driven.whole(station, Driven.ANN);
      assertThat(found.aids().orElseThrow().run().verdict()).isEqualTo(Word.FAIL);
      assertThat(found.asFound()).isEmpty();
      assertThat(station.seen().running().beyond()).isTrue();
      assertThat(station.seen().running().soFar().orElseThrow()).contains("agreed: ±1 %");

      driven.floor().take(station, station.lastJob().orElseThrow().anew(""), Driven.ANN);
      assertThat(station.seen().ended()).isEmpty();
      assertThat(station.seen().job().orElseThrow().warnings())
          .anyMatch(w -> w.contains("attempt 2 of this job; the first failed"));
      station.start(Driven.ANN);
      Ended left = driven.whole(station, Driven.ANN);
      assertThat(left.asFound().orElseThrow().asFound().verdict()).isEqualTo(Word.FAIL);
      assertThat(left.attempts()).hasSize(2);
      assertThat(left.attempts().get(0).word()).isEqualTo(Word.FAIL);
    }
  }

  @Test
  void anAnswerCountsForOneQuestionAfterItWasShown() throws Exception {
    try (Driven driven = driven(AT_ONCE, Driven.QUICK)) {
      Station station = driven.station();
      driven.floor().take(station, Driven.sheet("QT-0042"), Driven.ANN);
      station.start(Driven.ANN);
      Asked first = driven.asked(station, 0).orElseThrow();
      assertThatThrownBy(() -> station.agree(Driven.ANN, first.id()))
          .isInstanceOf(NotNow.class)
          .hasMessageContaining("not shown yet");
      assertThatThrownBy(() -> station.agree(Driven.ANN, first.id() + 1))
          .isInstanceOf(NotNow.class);
      Driven.agree(station, Driven.ANN, first);
      Asked second = driven.asked(station, first.id()).orElseThrow();
      assertThatThrownBy(() -> station.agree(Driven.ANN, first.id()))
          .isInstanceOf(NotNow.class)
          .hasMessageContaining("answered already");
      assertThat(station.seen().asked().orElseThrow().id()).isEqualTo(second.id());
    }
  }

  @Test
  void motionWantsAKeyThatIsHeldLongEnough() throws Exception {
    Manners anHour = new Manners(0, 3_600_000, 1000);
    try (Driven driven = driven(AT_ONCE, anHour)) {
      Station station = driven.station();
      driven.floor().take(station, Driven.sheet("QT-0042"), Driven.ANN);
      station.start(Driven.ANN);
      Asked motion = driven.untilMotion(station, Driven.ANN);
      station.shown(Driven.ANN, motion.id());
      assertThatThrownBy(() -> station.agree(Driven.ANN, motion.id()))
          .isInstanceOf(NotNow.class)
          .hasMessageContaining("hold the key");
      station.hold(Driven.ANN, motion.id());
      assertThatThrownBy(() -> station.agree(Driven.ANN, motion.id()))
          .isInstanceOf(NotNow.class)
          .hasMessageContaining("hold the key");
      assertThat(station.seen().running().output()).isNotEqualTo(Output.LIVE);
    }
  }

  @Test
  void whatWasLetGoIsNotHeld() throws Exception {
    try (Driven driven = driven(AT_ONCE, Driven.QUICK)) {
      Station station = driven.station();
      driven.floor().take(station, Driven.sheet("QT-0042"), Driven.ANN);
      station.start(Driven.ANN);
      Asked motion = driven.untilMotion(station, Driven.ANN);
      station.shown(Driven.ANN, motion.id());
      station.hold(Driven.ANN, motion.id());
      station.release(Driven.ANN, motion.id());
      assertThatThrownBy(() -> station.agree(Driven.ANN, motion.id())).isInstanceOf(NotNow.class);
    }
  }

  @Test
  void twoScreensCantBothDrive() throws Exception {
    try (Driven driven = driven(AT_ONCE, Driven.QUICK)) {
      Station station = driven.station();
      driven.floor().take(station, Driven.sheet("QT-0042"), Driven.ANN);
      assertThatThrownBy(() -> station.start(Driven.BEN))
          .isInstanceOf(NotNow.class)
          .hasMessageContaining("Ann, at another screen, holds station A");
      station.start(Driven.ANN);
      Asked first = driven.asked(station, 0).orElseThrow();
      assertThatThrownBy(() -> station.shown(Driven.BEN, first.id())).isInstanceOf(NotNow.class);
      station.shown(Driven.ANN, first.id());
      assertThatThrownBy(() -> station.agree(Driven.BEN, first.id())).isInstanceOf(NotNow.class);

      station.takeOver(Driven.BEN);
      assertThatThrownBy(() -> station.agree(Driven.ANN, first.id())).isInstanceOf(NotNow.class);
      // The other screen has not shown it yet.
      assertThatThrownBy(() -> station.agree(Driven.BEN, first.id()))
          .hasMessageContaining("not shown yet");
      Driven.agree(station, Driven.BEN, first);
      assertThat(driven.asked(station, first.id())).isPresent();
    }
  }

  @Test
  void whoSaysNoOrStopsEndsItWithTheSafeSignalAndNoVerdict() throws Exception {
    try (Driven driven = driven(AT_ONCE, Driven.QUICK)) {
      Station station = driven.station();
      driven.floor().take(station, Driven.sheet("QT-0042"), Driven.ANN);
      station.start(Driven.ANN);
      Asked motion = driven.untilMotion(station, Driven.ANN);
      station.shown(Driven.ANN, motion.id());
      station.refuse(Driven.ANN, motion.id());
      Ended refused = driven.await(station, s -> s.stage() == Stage.ENDED).ended().orElseThrow();
      assertThat(refused.outcome().orElseThrow().result().how()).isEqualTo(RunEnded.How.STOPPED);
      assertThat(refused.outcome().orElseThrow().result().safe().confirmed()).isTrue();
      assertThat(refused.aids().orElseThrow().run().passed()).isFalse();

      driven.floor().take(station, Driven.sheet("QT-0042"), Driven.ANN);
      station.start(Driven.ANN);
      driven.asked(station, 0);
      station.stop("Ben");
      Ended stopped = driven.await(station, s -> s.stage() == Stage.ENDED).ended().orElseThrow();
      assertThat(stopped.outcome().orElseThrow().result().reason())
          .isEqualTo("stopped at the bench screen by Ben");
    }
  }

  @Test
  void stopEndsWhatMovesWithTheSafeSignal() throws Exception {
    try (Driven driven = driven(SLOW, Driven.QUICK)) {
      Station station = driven.station();
      driven.floor().take(station, Driven.sheet("QT-0042"), Driven.ANN);
      station.start(Driven.ANN);
      Driven.agree(station, Driven.ANN, driven.untilMotion(station, Driven.ANN));
      driven.await(station, s -> s.running().state().startsWith("going to"));
      assertThat(station.seen().running().output()).isEqualTo(Output.LIVE);
      station.stop("");
      Seen seen = driven.await(station, s -> s.stage() == Stage.ENDED);
      assertThat(seen.ended().orElseThrow().outcome().orElseThrow().result().how())
          .isEqualTo(RunEnded.How.STOPPED);
      assertThat(seen.running().output()).isEqualTo(Output.SAFE);
      assertThat(seen.running().tests().get(0).mark()).isEqualTo(TestMark.Mark.VOID);
    }
  }

  @Test
  void whatIsLiveAndNobodyWatchesIsStoppedAndOnlyThen() throws Exception {
    Manners atOnce = new Manners(0, 0, 0);
    try (Driven driven = driven(AT_ONCE, atOnce)) {
      Station watched = driven.station();
      driven.floor().take(watched, Driven.sheet("QT-0042"), Driven.ANN);
      Station.Attendance here = watched.attend();
      watched.start(Driven.ANN);
      assertThat(driven.whole(watched, Driven.ANN).outcome().orElseThrow().result().how())
          .isEqualTo(RunEnded.How.COMPLETE);
      here.close();
      Station alone = driven.floor().stations().get(1);
      driven.floor().take(alone, Driven.sheet("QT-0044"), Driven.ANN);
      alone.start(Driven.ANN);
      Ended ended = driven.whole(alone, Driven.ANN);
      assertThat(ended.outcome().orElseThrow().result().reason())
          .isEqualTo("no bench screen watched it for 0 s");
      assertThat(ended.outcome().orElseThrow().result().safe().confirmed()).isTrue();
    }
  }

  @Test
  void aUnitIsAtOneStationAndWhatIsWrongIsSaidBeforeAnythingOpens() throws Exception {
    try (Driven driven = driven(AT_ONCE, Driven.QUICK)) {
      List<Station> all = driven.floor().stations();
      driven.floor().take(all.get(0), Driven.sheet("QT-0042"), Driven.ANN);
      assertThatThrownBy(() -> driven.floor().take(all.get(1), Driven.sheet("QT-0042"), Driven.ANN))
          .isInstanceOf(NotNow.class)
          .hasMessage("Unit QT-0042 is at station A now.");
      assertThatThrownBy(() -> driven.floor().take(all.get(1), Driven.sheet(" "), Driven.ANN))
          .isInstanceOf(WrongRequest.class)
          .hasMessageContaining("--serial");
      assertThat(driven.stages()).containsExactly(Stage.TAKEN, Stage.FREE);
      all.get(0).putBack(Driven.ANN);
      assertThat(all.get(0).seen().holder()).isEmpty();
      driven.floor().take(all.get(1), Driven.sheet("QT-0042"), Driven.BEN);
      assertThat(driven.stages()).containsExactly(Stage.FREE, Stage.TAKEN);
    }
  }

  @Test
  void twoStationsRunBesideEachOther() throws Exception {
    try (Driven driven = driven(AT_ONCE, Driven.QUICK)) {
      Station a = driven.floor().stations().get(0);
      Station b = driven.floor().stations().get(1);
      driven.floor().take(a, Driven.sheet("QT-0042"), Driven.ANN);
      driven.floor().take(b, Driven.sheet("QT-0043"), Driven.ANN);
      a.start(Driven.ANN);
      b.start(Driven.ANN);
      Ended second = driven.whole(b, Driven.ANN);
      assertThat(a.seen().stage()).isEqualTo(Stage.RUNNING);
      Ended first = driven.whole(a, Driven.ANN);
      assertThat(second.aids().orElseThrow().run().verdict()).isEqualTo(Word.FAIL);
      assertThat(first.aids().orElseThrow().run().verdict()).isNotEqualTo(Word.FAIL);
      assertThat(first.aids().orElseThrow().run().record().opened().serial()).isEqualTo("QT-0042");
    }
  }
}
