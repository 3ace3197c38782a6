package org.benchstroke.practice;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import org.benchstroke.bench.toml.FileMistakes;
import org.benchstroke.diagnosis.Cause;
import org.benchstroke.diagnosis.Diagnosis;
import org.benchstroke.verdict.JudgedRun;
import org.junit.jupiter.api.Test;

/**
 * Units with a clear fault, a third of them on links that fail, by the routine acceptance; the
 * benchmark "faulty" counts 20,000 of them.
 */
class FaultyUnitsTest {
  /**
   * Their fault may break no limit that anybody agreed; then the cause is named beside the pass.
   */
  private static final Set<Cause> MAY_MEET_ALL_LIMITS =
      Set.of(Cause.WORN_SENSOR, Cause.STICKY_SEAT);

  private static final int UNITS = 504;

  @Test
  void noneOfFiveHundredPasses() throws FileMistakes {
    DrawnUnits units =
        DrawnUnits.of(Path.of("demo-data"), "routine-acceptance").withLimits(FaultDraw.LIMITS);
    DrawnUnits onBadLinks = units.withLinkFaults(FaultDraw.LINK_FAULTS);
    List<Cause> causes = new ArrayList<>(FaultDraw.causes());
    causes.remove(Cause.HEALTHY);
    for (int i = 0; i < UNITS; i++) {
      Cause cause = causes.get(i % causes.size());
      long seed = 70_000L + i / causes.size();
      boolean bad = i / causes.size() % 3 == 2;
      JudgedRun run = (bad ? onBadLinks : units).judge(cause, Severity.CLEAR, seed);
      if (MAY_MEET_ALL_LIMITS.contains(cause) && run.passed()) {
        assertThat(Diagnosis.of(run).first().cause()).as("%s %s", cause, seed).isEqualTo(cause);
      } else {
        assertThat(run.passed()).as("%s %s: %s", cause, seed, run.reason()).isFalse();
      }
    }
  }
}
