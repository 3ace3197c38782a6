package org.benchstroke.record;

/**
 * Names of checks, and of their values, that are written in one package and looked for or written
 * in another: {@link Event.Checked} holds them as text. Stateless.
 */
public final class CheckNames {
  /** The feedback before anything moves; has its deviation and its mean. */
  public static final String NOISE_AT_REST = "noise at rest";

  /** Standard deviation of the feedback at rest, % of span. */
  public static final String DEVIATION_PERCENT = "deviation_percent";

  /** Mean of the feedback at rest, % of span. */
  public static final String MEAN_PERCENT = "mean_percent";

  /** The limit on the travel error against the instruments' uncertainty; has both. */
  public static final String ACCURACY_RATIO = "accuracy ratio";

  /** The ratio itself, to 1. */
  public static final String RATIO = "ratio";

  /** U of the instruments, % of span. */
  public static final String U_PERCENT = "u_percent";

  /** What the loop meter read in a check of the loop, mA. */
  public static final String FOUND_MILLIAMPS = "found_milliamps";

  /** What it had to read, mA. */
  public static final String WANTED_MILLIAMPS = "wanted_milliamps";

  /** Whether the unit stood still with its motor supply off, whatever the signal was. */
  public static final String SUPPLY_OFF = "motor supply off";

  /** Whether what is shown as the position is one. */
  public static final String POSITION_SHOWN = "position shown";

  private CheckNames() {}

  /** The due date of an instrument's certificate. */
  public static String calibration(String instrument) {
    return "calibration of " + instrument;
  }
}
