package org.benchstroke.run;

import org.benchstroke.procedure.Expansion;
import org.benchstroke.record.Entry;

/**
 * Watches a run. Called on the runner's thread after the journal has the event; must be quick. A
 * spectator that throws is logged and sees no more of the run; the run goes on.
 */
public interface Spectator {
  /**
   * What will be done to the unit: its tests, their steps and how long each takes, s of bench time.
   * Told once, before anything else.
   */
  default void planned(Expansion plan) {}

  void happened(Entry entry);

  void progressed(Progress progress);
}
