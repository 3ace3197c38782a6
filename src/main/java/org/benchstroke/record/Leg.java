package org.benchstroke.record;

import java.util.Locale;

/** Which part of a step a wait for rest belongs to. */
public enum Leg {
  /** To where the step begins, or back there before it is made again: no figure is taken. */
  LEAD_IN,
  /** To where the step goes. */
  ARRIVAL,
  /** A small change of the signal after that, one of a staircase. */
  STAIR;

  /** As it stands in a record. */
  @Override
  public String toString() {
    return name().toLowerCase(Locale.ROOT);
  }
}
