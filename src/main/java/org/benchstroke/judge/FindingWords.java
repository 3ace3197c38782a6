package org.benchstroke.judge;

/** By what words a finding is known, for who must not say the same again. */
public final class FindingWords {
  public static final String ACTION = "Action is not as ordered";
  public static final String SIGNAL_LOSS = "Wrong on signal loss";
  public static final String HUNTING = "Hunting at";
  public static final String RESTLESS = "Restless at";
  public static final String SWITCH_CUTS = "the switch cuts the motor before the end of travel";
  public static final String ZERO = "the zero is shifted";
  public static final String SPAN = "the span is off";
  public static final String SLACK = "slack after the sensor";

  private FindingWords() {}
}
