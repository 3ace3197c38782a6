package org.benchstroke.app.stations;

import org.benchstroke.run.Question;

/**
 * A question that a run waits to be answered.
 *
 * @param id of this one question: an answer is to it and to no other
 * @param question what is asked
 * @param shown whether the screen of whoever holds the station has said that it shows it
 */
public record Asked(long id, Question question, boolean shown) {
  /** Whether the unit moves once it is answered: then a key is held, not pressed. */
  public boolean motion() {
    return question instanceof Question.MotionConsent;
  }

  Asked asShown() {
    return new Asked(id, question, true);
  }
}
