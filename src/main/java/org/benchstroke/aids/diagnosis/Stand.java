package org.benchstroke.aids.diagnosis;

import java.util.OptionalDouble;

/**
 * Where the unit stood with a signal in force.
 *
 * @param setpointPercent the position that was asked for, %
 * @param way +1 if it came from below, −1 from above, 0 if it hardly moved
 * @param warmth how warm its running had made it, s, see {@link Warmth}
 * @param feedbackPercent where it stood by its own feedback, %
 * @param stemPercent where its stem stood, %; empty if nobody looked
 * @param jitterPercent what a reading scatters by from one to the next, standard deviation, %
 * @param openMade whether the open end switch was made; false if it was not read
 * @param closedMade whether the closed one was
 */
record Stand(
    double setpointPercent,
    int way,
    double warmth,
    double feedbackPercent,
    OptionalDouble stemPercent,
    double jitterPercent,
    boolean openMade,
    boolean closedMade) {
  private static final double LEAST_SHOWN = -1.0;
  static final double MOST_SHOWN = 102.5;

  double errorPercent() {
    return feedbackPercent - setpointPercent;
  }

  /** What the stem stands higher than the feedback says, %; 0 if nobody looked. */
  double besidePercent() {
    return stemPercent.isPresent() ? stemPercent.getAsDouble() - feedbackPercent : 0.0;
  }

  /**
   * Whether it is far enough from both ends, and from their switches, to tell of the travel, and
   * its feedback from its own ends, beyond which it shows no more.
   */
  boolean within() {
    return setpointPercent > 3.0 && setpointPercent < 97.0 && !openMade && !closedMade && shown();
  }

  /** Whether the feedback is not at an end of what it can show: common is 3.8 to 20.5 mA. */
  boolean shown() {
    return feedbackPercent > LEAST_SHOWN && feedbackPercent < MOST_SHOWN;
  }
}
