package org.benchstroke.simulator.practice;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.List;
import org.benchstroke.Counted;
import org.benchstroke.aids.diagnosis.Cause;
import org.benchstroke.core.toml.FileMistakes;
import org.benchstroke.judge.JudgedRun;
import org.junit.jupiter.api.Test;

/**
 * Units with a clear fault, a third of them on links that fail, by the routine acceptance; the
 * benchmark "faulty" counts 20,000 of them.
 */
class FaultyUnitsTest {
  private static final int UNITS = Counted.of(600);

  @Test
  void noneOfThemPasses() throws FileMistakes {
    DrawnUnits units =
        DrawnUnits.of(Path.of("demo-data"), "routine-acceptance").withLimits(FaultDraw.LIMITS);
    DrawnUnits onBadLinks = units.withLinkFaults(FaultDraw.LINK_FAULTS);
    List<Cause> causes = FaultDraw.ofTheUnit();
    for (int i = 0; i < UNITS; i++) {
      Cause cause = causes.get(i % causes.size());
      long seed = 70_000L + i / causes.size();
      boolean bad = i / causes.size() % 3 == 2;
      JudgedRun run = (bad ? onBadLinks : units).judge(cause, Severity.CLEAR, seed);
      assertThat(run.passed()).as("%s %s: %s", cause, seed, run.reason()).isFalse();
    }
  }
}
