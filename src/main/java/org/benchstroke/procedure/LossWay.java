package org.benchstroke.procedure;

/** A way of losing the signal. */
public enum LossWay implements Aim {
  /** A low signal that is still a signal: the unit must hold or follow it, not fail. */
  LOW("low"),
  /** A signal so low that it counts as lost. */
  LOST("lost"),
  /** No current, but the loop closed. */
  ZERO("zero"),
  /** A signal above the range that counts as lost. */
  HIGH("high"),
  /** The loop open. */
  OPEN_LOOP("open loop");

  private final String key;

  LossWay(String key) {
    this.key = key;
  }

  public String key() {
    return key;
  }

  @Override
  public String words() {
    return "loss " + key;
  }

  /** The name in the record of the check that says why a bench could not do it. */
  public String check() {
    return "signal loss: " + key;
  }
}
