package org.benchstroke.core.analysis;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.Random;
import org.benchstroke.core.analysis.MotionRule.Seen;
import org.benchstroke.core.analysis.Staircase.Next;
import org.junit.jupiter.api.Test;

/** The search, played against units that move at a known change of the signal; all from seeds. */
class StaircaseTest {

  /** Plays to the end; the unit moves at a change of {@code moves} or more. */
  private static Next play(Staircase search, double moves) {
    while (true) {
      Next next = search.next();
      if (next instanceof Next.Come) {
        search.came(true);
      } else if (next instanceof Next.Probe probe) {
        search.saw(probe.totalPercent() >= moves ? Seen.MOVED : Seen.STOOD);
      } else {
        return next;
      }
    }
  }

  @Test
  void theBracketHoldsTheTruthAndIsAsNarrowAsAsked() {
    Random random = new Random(3);
    for (int i = 0; i < 500; i++) {
      double finest = 0.01 + 0.1 * random.nextDouble();
      double moves = 0.001 + 2.9 * random.nextDouble();
      for (int coarse : new int[] {1, 2, 8}) {
        Next end = play(new Staircase(coarse * finest, finest, 3.0, 2), moves);
        assertThat(end).as("unit %d", i).isInstanceOf(Next.Found.class);
        Next.Found found = (Next.Found) end;
        assertThat(found.lowPercent()).isLessThan(moves);
        assertThat(found.highPercent()).isGreaterThanOrEqualTo(moves);
        assertThat(found.halfPercent()).isLessThanOrEqualTo(finest / 2 + 1e-9);
      }
    }
  }

  @Test
  void thePlainStaircaseGivesTotalLessHalfAStep() {
    Staircase search = new Staircase(0.05, 0.05, 3.0, 2);
    Next.Found found = (Next.Found) play(search, 1.29);
    assertThat(search.probes()).isEqualTo(26);
    assertThat(search.comings()).isEqualTo(1);
    assertThat(found.middlePercent()).isCloseTo(26 * 0.05 - 0.025, within(1e-9));
  }

  @Test
  void theAdaptiveSearchTakesAThirdOfTheSteps() {
    Random random = new Random(4);
    int fixed = 0;
    int adaptive = 0;
    for (int i = 0; i < 300; i++) {
      double moves = 0.5 + 1.5 * random.nextDouble();
      Staircase plain = new Staircase(0.05, 0.05, 3.0, 2);
      Staircase quick = new Staircase(0.4, 0.05, 3.0, 2);
      play(plain, moves);
      play(quick, moves);
      assertThat(quick.comings()).isLessThanOrEqualTo(4);
      fixed += plain.probes();
      adaptive += quick.probes();
    }
    assertThat((double) adaptive / fixed).isBetween(0.2, 0.35);
  }

  @Test
  void aUnitThatMovedIsApproachedAnewAndOneThatStoodIsNot() {
    Staircase search = new Staircase(0.4, 0.1, 3.0, 2);
    search.came(true);
    search.saw(Seen.STOOD);
    assertThat(search.next()).isInstanceOf(Next.Probe.class);
    search.saw(Seen.MOVED);
    assertThat(search.next()).isEqualTo(new Next.Come());
    search.came(true);
    assertThat(((Next.Probe) search.next()).totalPercent()).isCloseTo(0.6, within(1e-9));
  }

  @Test
  void anUncleanApproachIsMadeAgainButNotForEver() {
    Staircase search = new Staircase(0.05, 0.05, 3.0, 2);
    for (int i = 0; i < 3; i++) {
      assertThat(search.next()).isEqualTo(new Next.Come());
      search.came(false);
    }
    assertThat(search.next()).isInstanceOf(Next.Nothing.class);
  }

  @Test
  void afterAnUnclearAnswerThePlainStaircaseBeginsAnewAndTheOtherKeepsItsBracket() {
    Staircase plain = new Staircase(0.1, 0.1, 3.0, 2);
    Staircase quick = new Staircase(0.2, 0.1, 3.0, 2);
    for (Staircase search : new Staircase[] {plain, quick}) {
      search.came(true);
      search.saw(Seen.STOOD);
      search.saw(Seen.MOVED_BACK);
      assertThat(search.next()).isEqualTo(new Next.Come());
      search.came(true);
    }
    assertThat(((Next.Probe) plain.next()).totalPercent()).isCloseTo(0.1, within(1e-9));
    assertThat(((Next.Probe) quick.next()).totalPercent()).isCloseTo(0.4, within(1e-9));
  }

  @Test
  void aUnitThatNeverMovesGivesNothing() {
    assertThat(play(new Staircase(0.4, 0.05, 3.0, 2), 99.0))
        .isEqualTo(new Next.Nothing("it did not move"));
    assertThat(play(new Staircase(0.05, 0.05, 3.0, 2), 99.0)).isInstanceOf(Next.Nothing.class);
  }

  @Test
  void whatWasNotAskedForIsNoAnswer() {
    Staircase search = new Staircase(0.05, 0.05, 3.0, 2);
    assertThatThrownBy(() -> search.saw(Seen.MOVED)).isInstanceOf(IllegalStateException.class);
    assertThatThrownBy(() -> new Staircase(0.05, 0.0, 3.0, 2))
        .isInstanceOf(IllegalArgumentException.class);
  }
}
