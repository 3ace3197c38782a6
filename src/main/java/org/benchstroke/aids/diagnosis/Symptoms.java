package org.benchstroke.aids.diagnosis;

import java.util.List;
import java.util.Map;
import org.benchstroke.judge.JudgedRun;

/**
 * What a run shows of causes, before anything is weighed. Immutable.
 *
 * @param evidence every sign that the run could show
 * @param denied the causes that its own measures deny, with the measure in words
 * @param passed whether the run passed
 */
public record Symptoms(List<Evidence> evidence, Map<Cause, String> denied, boolean passed) {
  public Symptoms {
    evidence = List.copyOf(evidence);
    denied = Map.copyOf(denied);
  }

  /** Of that run. */
  public static Symptoms of(JudgedRun run) {
    return new Signs(run).symptoms();
  }

  /** Whether the run came to its end: only of such a run it can be said that nothing jumped. */
  public boolean whole() {
    return evidence.stream().anyMatch(e -> e.sign() == Sign.LARGE_JUMP && !e.seen());
  }

  /** Whether a loop meter was read: else nothing is said of what the loop carried. */
  public boolean loopMeter() {
    return evidence.stream().anyMatch(e -> e.sign() == Sign.LOOP_DISAGREES);
  }

  /**
   * Whether a loop at the limit of its source would look like a stop: nothing measured what the
   * loop carried, and the unit is not held where the current is lowest.
   */
  boolean loopUnproven() {
    return !loopMeter()
        && !denied.containsKey(Cause.LOOP_RESISTANCE)
        && !denied.containsKey(Cause.STOP_BEFORE_SWITCH);
  }

  /** What was seen. */
  public List<Evidence> seen() {
    return evidence.stream().filter(Evidence::seen).toList();
  }
}
