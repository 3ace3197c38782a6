package org.benchstroke.acceptance;

import java.util.HashMap;
import java.util.Map;
import org.benchstroke.core.model.Truth;
import org.benchstroke.judge.Measure;
import org.benchstroke.record.Entry;
import org.benchstroke.record.Event;
import org.benchstroke.run.Progress;
import org.benchstroke.run.Spectator;

/** Notes the unit's true travel error whenever the runner finds it at rest. */
final class TruthAtRest implements Spectator {
  private final VirtualBench bench;
  private final Map<String, Double> errors = new HashMap<>();

  TruthAtRest(VirtualBench bench) {
    this.bench = bench;
  }

  /** Whether it is of a point of the test: of other rests no truth is kept. */
  boolean asked(Measure measure) {
    return errors.containsKey(place(measure));
  }

  /** The true feedback less the true signal at a measure's place, % of travel. */
  double error(Measure measure) {
    return errors.get(place(measure));
  }

  private static String place(Measure measure) {
    return measure.place().words().replace(" %", "");
  }

  @Override
  public void happened(Entry entry) {
    if (entry.event() instanceof Event.Rested rested && rested.label().startsWith("travel ")) {
      Truth truth = bench.unit().truth();
      double signal = (truth.loopMilliamps() - 4.0) / 16.0 * 100.0;
      errors.put(rested.label().substring("travel ".length()), truth.feedbackPercent() - signal);
    }
  }

  @Override
  public void progressed(Progress progress) {
    // Only the truth is of interest.
  }
}
