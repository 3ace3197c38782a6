package org.benchstroke.cli;

import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.BooleanSupplier;
import org.benchstroke.core.clock.BenchClock;
import org.benchstroke.core.clock.Stopwatch;
import org.benchstroke.run.Answer;
import org.benchstroke.run.DisplayQuestion;
import org.benchstroke.run.Operator;
import org.benchstroke.run.Question;
import org.benchstroke.run.StopSwitch;

/**
 * Asks at the terminal: y goes on, n or q stops, and motion wants the word <em>move</em>. Only what
 * is typed after the question was seen answers it.
 */
final class ConsoleOperator implements Operator {
  private static final String MOVE = "move";
  private static final String STOP_KEYS = "nq";
  private static final int COUNT_DOWN_SECONDS = 3;
  private static final int SLICES = 5;
  private static final long LAST_PATIENCE_NANOS = 5_000_000_000L;
  private static final long SLICE_MILLIS = 100;

  private final Shown out;
  private final Keys keys;
  private final BenchClock clock;
  private final StopSwitch stop;
  private final Tty tty;
  private Runnable meanwhile = () -> {};

  /** Asks a person whose keys are read by these already. */
  ConsoleOperator(Shown out, Keys keys, Tty tty, BenchClock clock, StopSwitch stop) {
    this.out = out;
    this.keys = keys;
    this.tty = tty;
    this.clock = clock;
    this.stop = stop;
  }

  /**
   * Asks the person at a terminal, whose end stops the work. The system's own word for that may not
   * come: the serial library has the program ignore SIGHUP.
   */
  ConsoleOperator(Input in, Shown out, Tty tty, BenchClock clock, StopSwitch stop) {
    this(out, Keys.at(tty, in, out, () -> stop.stop("the terminal is gone")), tty, clock, stop);
  }

  @Override
  public void whileWaiting(Runnable task) {
    meanwhile = task;
  }

  @Override
  public Answer answer(Question question) {
    question.shownWith().ifPresent(echo -> EchoBlock.show(out, echo, tty.width()));
    question.warning().ifPresent(caution -> Cautions.show(out, caution, tty.width()));
    if (question instanceof DisplayQuestion display) {
      return read(display);
    }
    if (question instanceof Question.Task task) {
      return done(task.request());
    }
    return question instanceof Question.MotionConsent
        ? agreed(MOVE, "  To let it move, type  move  and Enter.   n = no, stop   ", STOP_KEYS)
        : agreed("y", "  Go on?   y = yes   n = no, stop   ", "y" + STOP_KEYS);
  }

  private Answer agreed(String goesOn, String question, String single) {
    BooleanSupplier going = () -> !stop.isStopping();
    Optional<String> typed = typed(question, single, going);
    while (typed.isPresent() && !stops(typed.get())) {
      if (typed.get().equalsIgnoreCase(goesOn)) {
        return new Answer.Yes(goesOn + ", at the terminal");
      }
      typed = typed("  Type  " + goesOn + "  or n:  ", single, going);
    }
    return Answer.no();
  }

  private Answer read(DisplayQuestion question) {
    BooleanSupplier going = () -> !stop.isStopping();
    out.control(Shown.Control.BELL);
    Optional<String> typed =
        typed("  " + question.words() + ", then Enter (q stops):  ", "q", going);
    while (typed.isPresent() && !stops(typed.get())) {
      OptionalDouble number = question.number(typed.get());
      if (number.isPresent()) {
        return new Answer.Figure(number.getAsDouble());
      }
      typed = typed("  Type " + question.allowed() + ", then Enter:  ", "q", going);
    }
    return Answer.no();
  }

  private Answer done(String request) {
    Stopwatch asked = new Stopwatch();
    BooleanSupplier going = () -> !stop.isStopping() || asked.nanos() < LAST_PATIENCE_NANOS;
    out.control(Shown.Control.BELL);
    Optional<String> typed =
        typed("  " + request + ", then y (q stops):  ", "y" + STOP_KEYS, going);
    while (typed.isPresent() && !typed.get().equalsIgnoreCase("y")) {
      if (stops(typed.get())) {
        stop.stop("stopped at the terminal");
        return Answer.no();
      }
      typed = typed("  Type y when it is done, or q to stop:  ", "y" + STOP_KEYS, going);
    }
    return typed.isPresent() ? new Answer.Yes("y, at the terminal") : Answer.no();
  }

  /** What is typed after a question was seen; empty if there is no more to be asked. */
  private Optional<String> typed(String question, String single, BooleanSupplier going) {
    out.print(question);
    while (going.getAsBoolean() && !out.drain(SLICE_MILLIS)) {
      meanwhile.run();
    }
    keys.forget();
    while (going.getAsBoolean()) {
      meanwhile.run();
      Optional<String> typed = keys.poll(single);
      if (typed.isPresent()) {
        return typed;
      }
    }
    out.println();
    return Optional.empty();
  }

  private static boolean stops(String answer) {
    return answer.equalsIgnoreCase("n")
        || answer.equalsIgnoreCase("no")
        || answer.equalsIgnoreCase("q")
        || Keys.isEnd(answer);
  }

  @Override
  public void countDown() {
    for (int left = COUNT_DOWN_SECONDS; left > 0 && !stop.isStopping(); left--) {
      out.control(Shown.Control.BELL);
      out.println("  Moving in " + left + " …");
      aSecond();
    }
  }

  private void aSecond() {
    try {
      for (int i = 0; i < SLICES; i++) {
        clock.waitInWall(1_000_000_000L / SLICES);
        meanwhile.run();
      }
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      stop.stop("the program was asked to end");
    }
  }
}
