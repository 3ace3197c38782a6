package org.benchstroke.simulator.practice;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.EnumSet;
import java.util.Set;
import org.benchstroke.aids.diagnosis.Cause;
import org.benchstroke.core.toml.FileMistakes;
import org.benchstroke.papers.Elsewhere;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

class MysteryUnitTest {
  private static final Path DEMO = Path.of("demo-data");

  @Test
  void everyCauseComesUpAndTheSoundUnitToo() throws FileMistakes {
    Set<Cause> seen = EnumSet.noneOf(Cause.class);
    for (int number = 0; number < 300; number++) {
      seen.add(MysteryUnit.of(DEMO, number).hidden());
    }
    assertThat(seen).containsExactlyInAnyOrderElementsOf(FaultDraw.causes());
  }

  @ParameterizedTest
  @EnumSource(PracticeTest.class)
  void everyTestRunsAndItsBenchTimeCounts(PracticeTest test) throws FileMistakes {
    MysteryUnit unit = MysteryUnit.of(DEMO, sound());
    assertThat(unit.run(test).tests()).singleElement().extracting("outcome").isEqualTo("complete");
    assertThat(unit.benchSeconds()).isBetween(20.0, 1200.0);
  }

  @Test
  void rightIsWorthMoreTheLessTimeItTook() throws FileMistakes {
    MysteryUnit unit = MysteryUnit.of(DEMO, 3);
    int atOnce = unit.score(unit.hidden()).points();
    unit.run(PracticeTest.HUNTING);
    MysteryUnit.Score later = unit.score(unit.hidden());
    assertThat(atOnce).isEqualTo(100);
    assertThat(later.right()).isTrue();
    assertThat(later.points()).isLessThan(100).isGreaterThanOrEqualTo(50);
  }

  @Test
  void anotherCauseIsNotRight() throws FileMistakes {
    MysteryUnit unit = MysteryUnit.of(DEMO, 3);
    Cause other = unit.hidden() == Cause.SPAN ? Cause.ZERO_SHIFT : Cause.SPAN;
    assertThat(unit.score(other).right()).isFalse();
    assertThat(unit.score(other).points()).isLessThan(50);
  }

  /** A file that only the machine that wrote it can read is none. */
  @Test
  void itsFileIsTheSameInEveryPlace() throws FileMistakes {
    for (int number = 0; number < 30; number++) {
      MysteryUnit unit = MysteryUnit.of(DEMO, number);
      assertThat(Elsewhere.everywhere(() -> unit.file("unit.toml")))
          .containsOnly(unit.file("unit.toml"));
    }
  }

  private static long sound() throws FileMistakes {
    long number = 0;
    while (MysteryUnit.of(DEMO, number).hidden() != Cause.HEALTHY) {
      number++;
    }
    return number;
  }
}
