package org.benchstroke.cli;

import java.io.PrintWriter;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import org.benchstroke.clock.BenchClock;
import org.benchstroke.run.Caution;
import org.benchstroke.run.DisplayQuestion;
import org.benchstroke.run.Operator;
import org.benchstroke.run.StopSwitch;

/** Asks at the terminal: y and Enter goes on, n or q and Enter stops. A pedal may send them. */
final class ConsoleOperator implements Operator {
  private static final int COUNT_DOWN_SECONDS = 3;
  private static final int SLICES = 5;
  private static final double LAST_PATIENCE_SECONDS = 5.0;

  private final PrintWriter out;
  private final Keys keys;
  private final BenchClock clock;
  private final StopSwitch stop;
  private Runnable meanwhile = () -> {};

  ConsoleOperator(PrintWriter out, Keys keys, BenchClock clock, StopSwitch stop) {
    this.out = out;
    this.keys = keys;
    this.clock = clock;
    this.stop = stop;
  }

  @Override
  public void whileWaiting(Runnable task) {
    meanwhile = task;
  }

  @Override
  public String acknowledge(Caution caution) {
    Cautions.show(out, caution);
    out.print("  Go on?   y + Enter = yes     n + Enter = no, stop   ");
    out.flush();
    while (!stop.isStopping()) {
      meanwhile.run();
      Optional<String> line = keys.poll();
      if (line.isPresent()) {
        Terminal.endAnswer(out);
        String answer = line.get().toLowerCase(Locale.ROOT);
        if (answer.equals("y") || answer.equals("yes")) {
          return "yes, at the terminal";
        }
        if (answer.equals("n") || answer.equals("no") || answer.equals("q") || Keys.isEnd(answer)) {
          return "";
        }
        out.print("  Type y or n, then Enter:  ");
        out.flush();
      }
    }
    return "";
  }

  @Override
  public OptionalDouble read(DisplayQuestion question) {
    out.print("\u0007  " + question.words() + ", then Enter (q stops):  ");
    out.flush();
    while (!stop.isStopping()) {
      meanwhile.run();
      Optional<String> line = keys.poll();
      if (line.isPresent()) {
        Terminal.endAnswer(out);
        OptionalDouble number = question.number(line.get());
        boolean ends = line.get().equalsIgnoreCase("q") || Keys.isEnd(line.get());
        if (number.isPresent() || ends) {
          return number;
        }
        out.print("  Type " + question.allowed() + ", then Enter:  ");
        out.flush();
      }
    }
    return OptionalDouble.empty();
  }

  /**
   * Asks also while the program is asked to stop, though not for long: a source that is set by hand
   * must still be brought to the safe signal.
   */
  @Override
  public boolean confirm(String request) {
    out.print("\u0007  " + request + ", then y + Enter (q stops):  ");
    out.flush();
    long patience = clock.nanos() + (long) (LAST_PATIENCE_SECONDS * 1e9 * clock.scale());
    while (!stop.isStopping() || clock.nanos() < patience) {
      meanwhile.run();
      Optional<String> line = keys.poll();
      if (line.isPresent()) {
        Terminal.endAnswer(out);
        String answer = line.get().toLowerCase(Locale.ROOT);
        if (answer.equals("y") || answer.equals("yes")) {
          return true;
        }
        if (answer.equals("n") || answer.equals("q") || Keys.isEnd(answer)) {
          stop.stop("stopped at the terminal");
          return false;
        }
        out.print("  Type y when it is done, or q to stop, then Enter:  ");
        out.flush();
      }
    }
    return false;
  }

  @Override
  public void countDown() {
    for (int left = COUNT_DOWN_SECONDS; left > 0 && !stop.isStopping(); left--) {
      out.println("  Moving in " + left + " …\u0007");
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
