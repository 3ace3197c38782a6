package org.benchstroke.app.stations;

import java.util.Optional;
import java.util.OptionalInt;
import org.benchstroke.core.clock.Stopwatch;
import org.benchstroke.run.Answer;
import org.benchstroke.run.DisplayQuestion;
import org.benchstroke.run.Operator;
import org.benchstroke.run.Question;
import org.benchstroke.run.StopSwitch;

/**
 * The person at whichever screen holds the station. A question has a number of its own; only an
 * answer to that number counts, and only after that screen has said that it shows the question. The
 * run's thread asks; any thread answers.
 */
final class StationOperator implements Operator {
  private static final long MOMENT_MILLIS = 100;

  /** A source that is set by hand must be brought to the safe signal even after a stop. */
  private static final long LAST_PATIENCE_NANOS = 5_000_000_000L;

  /** What the operator tells the station. */
  interface Told {
    void asks(Optional<Asked> asked);

    void counts(OptionalInt seconds);

    /** Called again and again while a person is waited for. */
    void waits();
  }

  private record Given(long id, Answer answer) {}

  private record Held(long id, Driver by, Stopwatch since) {}

  private final Manners manners;
  private final StopSwitch stop;
  private final Told told;
  private final Bell bell = new Bell();
  private volatile Optional<Asked> asked = Optional.empty();
  private volatile Optional<Given> given = Optional.empty();
  private volatile Optional<Held> held = Optional.empty();
  private Runnable meanwhile = () -> {};
  private long next = 1;

  StationOperator(Manners manners, StopSwitch stop, Told told) {
    this.manners = manners;
    this.stop = stop;
    this.told = told;
  }

  @Override
  public void whileWaiting(Runnable task) {
    meanwhile = task;
  }

  @Override
  public Answer answer(Question question) {
    given = Optional.empty();
    held = Optional.empty();
    long id = next++;
    Stopwatch since = new Stopwatch();
    asked = Optional.of(new Asked(id, question, false));
    told.asks(asked);
    try {
      while (waits(question, since)) {
        meanwhile.run();
        told.waits();
        if (bell.await(() -> given.filter(g -> g.id() == id).isPresent(), MOMENT_MILLIS)) {
          return given.orElseThrow().answer();
        }
      }
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      stop.stop("the program was asked to end");
    } finally {
      asked = Optional.empty();
      told.asks(asked);
    }
    return Answer.no();
  }

  private boolean waits(Question question, Stopwatch since) {
    return !stop.isStopping()
        || (question instanceof Question.Task && since.nanos() < LAST_PATIENCE_NANOS);
  }

  @Override
  public void countDown() {
    try {
      for (int left = manners.countDownSeconds(); left > 0 && !stop.isStopping(); left--) {
        told.counts(OptionalInt.of(left));
        for (int i = 0; i < 10 && !stop.isStopping(); i++) {
          meanwhile.run();
          bell.await(stop::isStopping, MOMENT_MILLIS);
        }
      }
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      stop.stop("the program was asked to end");
    } finally {
      told.counts(OptionalInt.empty());
    }
  }

  /** A stop was asked for: nobody is waited for any longer. */
  void stopped() {
    bell.ring();
  }

  /** Another screen is at it now: it has to show the question first. */
  void unseen() {
    held = Optional.empty();
    asked = asked.map(a -> new Asked(a.id(), a.question(), false));
    told.asks(asked);
  }

  /** The screen says that it shows the question. */
  void shown(long id) throws NotNow {
    Asked waiting = waiting(id);
    if (!waiting.shown()) {
      asked = Optional.of(waiting.asShown());
      told.asks(asked);
    }
  }

  /** The key of consent goes down. */
  void hold(Driver driver, long id) throws NotNow {
    requireShown(id);
    held = Optional.of(new Held(id, driver, new Stopwatch()));
  }

  /** The key was let go too early, or nobody knows whether it still is down. */
  void release(long id) {
    held = held.filter(h -> h.id() != id);
  }

  /**
   * Yes.
   *
   * @throws NotNow if that question does not wait, was not shown, or wants a key that is held
   */
  void agree(Driver driver, long id) throws NotNow {
    Asked waiting = requireShown(id);
    if (waiting.question() instanceof DisplayQuestion) {
      throw new NotNow("This question wants a figure.");
    }
    if (waiting.motion()) {
      requireHeld(driver, id);
    }
    give(
        id,
        new Answer.Yes(
            (waiting.motion() ? "key held" : "yes") + ", at the bench screen, " + driver.name()));
  }

  private void requireHeld(Driver driver, long id) throws NotNow {
    long wanted = manners.holdMillis() * 1_000_000L;
    boolean whole =
        held.filter(h -> h.id() == id && h.by().equals(driver) && h.since().nanos() >= wanted)
            .isPresent();
    if (!whole) {
      throw new NotNow("The unit moves after this: hold the key until its ring is full.");
    }
  }

  /** A figure that was read. */
  void figure(long id, String typed) throws NotNow {
    Asked waiting = requireShown(id);
    if (!(waiting.question() instanceof DisplayQuestion display)) {
      throw new NotNow("This question wants no figure.");
    }
    if (display.number(typed).isEmpty()) {
      throw new NotNow("\"" + typed + "\" is no answer: allowed is " + display.allowed() + ".");
    }
    give(id, new Answer.Figure(display.number(typed).getAsDouble()));
  }

  /** No: the run ends. */
  void refuse(long id) throws NotNow {
    requireShown(id);
    give(id, Answer.no());
  }

  private void give(long id, Answer answer) {
    given = Optional.of(new Given(id, answer));
    bell.ring();
  }

  private Asked requireShown(long id) throws NotNow {
    Asked waiting = waiting(id);
    if (!waiting.shown()) {
      throw new NotNow("This question was not shown yet: read it first.");
    }
    return waiting;
  }

  private Asked waiting(long id) throws NotNow {
    return asked
        .filter(a -> a.id() == id)
        .orElseThrow(() -> new NotNow("That question is answered already, or another waits."));
  }
}
