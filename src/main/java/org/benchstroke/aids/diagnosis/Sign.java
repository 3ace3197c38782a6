package org.benchstroke.aids.diagnosis;

import static org.benchstroke.aids.diagnosis.SignNeeds.*;

/** Something that a run shows, does not show, or can't show, and by which test it is shown. */
public enum Sign {
  CONSTANT_ERROR("the error is there at 0 % already", TRAVEL),
  GROWING_ERROR("the error grows with the setpoint", TRAVEL),
  STEM_SHARES_ERROR("the stem is off alike", TRAVEL_WITH_STEM),
  STEM_LAGS("the stem differs more between the two ways than the feedback", TRAVEL_WITH_STEM),
  STEM_JERKS("at full speed the stem moves in jerks", STROKES_WITH_STEM),
  STEM_OFF_AT_SEAT("the stem is off near closed only", TRAVEL_WITH_STEM),
  STEM_TRAILS_AT_SEAT(
      "the stem trails as it leaves closed, more than elsewhere", STROKES_WITH_STEM),
  STEM_BENT("the stem leads or trails between its ends", TRAVEL_WITH_STEM),
  FEEDBACK_BENT("the error bends along the travel", TRAVEL),
  STEM_OFFSET("the stem is off by a constant angle, the feedback is not", TRAVEL_WITH_STEM),
  GOES_PAST("it rests beyond its setpoint, both ways", TRAVEL),
  ERROR_DRIFTS("the error changes with time", TRAVEL),
  STANDS_FAR_OFF("at least once it stood far from its setpoint", TRAVEL),
  STANDS_AT_ONE_PLACE("wherever it was sent further, it stood at the same place", TRAVEL),
  STOPS_BY_ITSELF("it stopped by itself, or did not start, with the signal as it was", STROKES),
  LIMIT_CYCLE("it hunts with a steady period", HOLDS),
  RESTLESS_EVERYWHERE("at most places it starts though it need not", HOLDS),
  RESTLESS_AT_ONE_PLACE("it is restless at one place only", HOLDS),
  NOISY_STRETCH("its feedback is noisy over one stretch of the travel", STROKES),
  SMALL_JUMPS("its position jumped by a little, faster than it can move", STROKES),
  LARGE_JUMP("its position jumped far, faster than it can move", STROKES),
  ACTION_OPPOSITE("it moved against the signal", STROKES),
  ENDS_SWAPPED("with the signal of one end it stood at the other", STROKES),
  PAST_ITS_END("it ran past its end switch to the stop", STROKES),
  SHORT_SWITCH_MADE("it stops short of the end with its end switch made", TRAVEL),
  SHORT_SWITCH_OPEN("it stops short of the end and the end switch is open", TRAVEL),
  NO_SWITCH_BEYOND("sent beyond the end it stands, and the end switch stays open", SWITCHES),
  AUXILIARY_LATE("the auxiliary is open when the end switch trips", SWITCHES),
  WRONG_ON_LOSS("it does not do what was ordered on loss of the signal", LOSSES),
  LATE_AT_REVERSAL("its dead time is longer after a reversal", STEPS),
  DEAD_BAND_WIDE("its dead band is more than twice its setting", DEAD_BAND),
  SLOW("it is slower than its type states", STROKES),
  SLOW_AT_SEAT("it is slow near closed", STROKES),
  SUPPLY_SAGS("its supply sags while it runs", SUPPLY),
  LOOP_SHORT_AT_TOP("the loop carries less than was set, at the top only", PREFLIGHT),
  LOOP_DISAGREES("the loop meter and the source disagree by a slope", PREFLIGHT),
  READING_FROZEN("a reading stood still to the last digit while it must have moved", STROKES),
  READING_IMPOSSIBLE("the position reads what no unit can show", PREFLIGHT),
  NOISY_BEFORE_MOTION("its feedback was noisy before anything moved", STROKES),
  SAMPLED_TOO_SLOWLY("it is read too slowly to show a cycle", HOLDS);

  private final String words;
  private final SignNeeds by;

  Sign(String words, SignNeeds by) {
    this.words = words;
    this.by = by;
  }

  public String words() {
    return words;
  }

  /** What must be done to see it. */
  public SignNeeds shownBy() {
    return by;
  }
}
