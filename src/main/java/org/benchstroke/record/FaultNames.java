package org.benchstroke.record;

/**
 * Names of faults that are written in one package and looked for or written in another: {@link
 * Event.Faulted} holds them as text. What an exchange fails by has its name from the instrument's
 * error. Stateless.
 */
public final class FaultNames {
  /** No sample for longer than is allowed. */
  public static final String GAP = "gap";

  /** The feedback moved faster than the unit can. */
  public static final String IMPOSSIBLE_SLEW = "impossible slew";

  /** A value kept all its digits where it had to change; an instrument's error of the same name. */
  public static final String FROZEN_VALUE = "frozen value";

  /** The source no longer makes what it was set to. */
  public static final String SETTING_LOST = "setting lost";

  /** A file of others holds more of a test's kind than its procedure asks for. */
  public static final String MORE = "more than was judged";

  private FaultNames() {}
}
