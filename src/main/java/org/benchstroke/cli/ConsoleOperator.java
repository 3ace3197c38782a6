package org.benchstroke.cli;

import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.BooleanSupplier;
import org.benchstroke.core.clock.BenchClock;
import org.benchstroke.procedure.Caution;
import org.benchstroke.run.DisplayQuestion;
import org.benchstroke.run.Operator;
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
  private static final double LAST_PATIENCE_SECONDS = 5.0;
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
  public String acknowledge(Caution caution) {
    Cautions.show(out, caution, tty.width());
    return caution.startsMotion()
        ? said(MOVE, "  To let it move, type  move  and Enter.   n = no, stop   ", STOP_KEYS)
        : said("y", "  Go on?   y = yes   n = no, stop   ", "y" + STOP_KEYS);
  }

  /** What was said, for the record; empty if it is not what goes on. */
  private String said(String goesOn, String question, String single) {
    BooleanSupplier going = () -> !stop.isStopping();
    Optional<String> answer = answer(question, single, going);
    while (answer.isPresent()) {
      if (answer.get().equalsIgnoreCase(goesOn)) {
        return goesOn + ", at the terminal";
      }
      if (stops(answer.get())) {
        return "";
      }
      answer = answer("  Type  " + goesOn + "  or n:  ", single, going);
    }
    return "";
  }

  @Override
  public OptionalDouble read(DisplayQuestion question) {
    BooleanSupplier going = () -> !stop.isStopping();
    out.control(Shown.Control.BELL);
    Optional<String> answer =
        answer("  " + question.words() + ", then Enter (q stops):  ", "q", going);
    while (answer.isPresent() && !stops(answer.get())) {
      OptionalDouble number = question.number(answer.get());
      if (number.isPresent()) {
        return number;
      }
      answer = answer("  Type " + question.allowed() + ", then Enter:  ", "q", going);
    }
    return OptionalDouble.empty();
  }

  /**
   * Asks also while the program is asked to stop, though not for long: a source that is set by hand
   * must still be brought to the safe signal.
   */
  @Override
  public boolean confirm(String request) {
    long patience = clock.nanos() + (long) (LAST_PATIENCE_SECONDS * 1e9 * clock.scale());
    BooleanSupplier going = () -> !stop.isStopping() || clock.nanos() < patience;
    out.control(Shown.Control.BELL);
    Optional<String> answer =
        answer("  " + request + ", then y (q stops):  ", "y" + STOP_KEYS, going);
    while (answer.isPresent() && !answer.get().equalsIgnoreCase("y")) {
      if (stops(answer.get())) {
        stop.stop("stopped at the terminal");
        return false;
      }
      answer = answer("  Type y when it is done, or q to stop:  ", "y" + STOP_KEYS, going);
    }
    return answer.isPresent();
  }

  /** The answer to a question, given after it was seen; empty if there is no more to be asked. */
  private Optional<String> answer(String question, String single, BooleanSupplier going) {
    out.print(question);
    while (going.getAsBoolean() && !out.drain(SLICE_MILLIS)) {
      meanwhile.run();
    }
    keys.forget();
    while (going.getAsBoolean()) {
      meanwhile.run();
      Optional<String> answer = keys.poll(single);
      if (answer.isPresent()) {
        return answer;
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
    long slice = (long) (1e9 * clock.scale() / SLICES);
    try {
      for (int i = 0; i < SLICES; i++) {
        clock.waitUntil(clock.nanos() + slice);
        meanwhile.run();
      }
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      stop.stop("the program was asked to end");
    }
  }
}
