package org.benchstroke.run;

import java.util.Optional;
import org.benchstroke.procedure.Caution;

/**
 * What a run asks a person, as data: whatever shows it finds here what must be said, and what kind
 * of answer goes on. Immutable.
 */
public sealed interface Question
    permits Question.Acknowledgement, Question.MotionConsent, Question.Task, DisplayQuestion {
  /** Which kind of question it is; for each kind one way of asking. */
  String id();

  /**
   * A caution to be read: goes on with a {@link Answer.Yes} that was given after it was shown.
   *
   * @param caution which one
   * @param echo what it speaks of, to be shown above it, if there is something
   */
  record Acknowledgement(Caution caution, Optional<Echo> echo) implements Question {
    /** Of which nothing more is shown. */
    public Acknowledgement(Caution caution) {
      this(caution, Optional.empty());
    }

    @Override
    public String id() {
      return "caution";
    }
  }

  /**
   * A caution after which the unit moves: likewise, but with a key or a word of its own that
   * answers no other question.
   *
   * @param caution which one
   * @param echo what is about to be tested, to be shown with it; where the unit moves for the first
   *     time
   */
  record MotionConsent(Caution caution, Optional<Echo> echo) implements Question {
    /** Of a unit that has moved already. */
    public MotionConsent(Caution caution) {
      this(caution, Optional.empty());
    }

    @Override
    public String id() {
      return "motion";
    }
  }

  /**
   * Something that a person has to do, and then to say yes. It is asked also while a run is asked
   * to stop: a source that is set by hand must still be brought to the safe signal. Then no answer
   * may be waited for any longer than a few seconds of wall time.
   *
   * @param request what, in words: "Set \"loop calibrator\" to 12.000 mA"
   */
  record Task(String request) implements Question {
    @Override
    public String id() {
      return "task";
    }
  }

  /** What is to be shown with it, so that a person can compare it with what is there. */
  default Optional<Echo> shownWith() {
    if (this instanceof Acknowledgement asked) {
      return asked.echo();
    }
    return this instanceof MotionConsent asked ? asked.echo() : Optional.empty();
  }

  /** The caution that it is about, if it is about one. */
  default Optional<Caution> warning() {
    if (this instanceof Acknowledgement asked) {
      return Optional.of(asked.caution());
    }
    return this instanceof MotionConsent asked ? Optional.of(asked.caution()) : Optional.empty();
  }

  /** A caution, as it wants to be answered. */
  static Question of(Caution caution) {
    return caution.startsMotion() ? new MotionConsent(caution) : new Acknowledgement(caution);
  }
}
