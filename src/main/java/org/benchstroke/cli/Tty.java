package org.benchstroke.cli;

import java.io.IOException;
import java.util.Optional;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.TimeoutException;
import java.util.function.Consumer;
import org.jline.terminal.Attributes;
import org.jline.terminal.Attributes.ControlChar;
import org.jline.terminal.Terminal;
import org.jline.terminal.TerminalBuilder;
import org.jline.utils.NonBlockingReader;
import org.jline.utils.Signals;

/**
 * The terminal as JLine has it: how wide it is, and single keys. It is opened by a thread of its
 * own: the system's {@code stty} takes a moment, and waits as long as output is held up. Until it
 * is open, and where it can't be, it is as wide as most. Any thread.
 */
final class Tty implements AutoCloseable {
  private static final int USUAL_WIDTH = 80;
  private static final int ANY_WIDTH = 10_000;
  private static final long LONGEST_CLOSE_SECONDS = 2;
  private static final long LONGEST_OPEN_SECONDS = 2;

  private final CompletableFuture<Optional<Terminal>> opened = new CompletableFuture<>();
  private volatile int width = USUAL_WIDTH;

  private Tty() {}

  /** Looks how wide it is, if it is there; nothing of it is changed. */
  static Tty watched() {
    if (Terminals.isThere()) {
      return begun(terminal -> {});
    }
    Tty none = new Tty();
    none.width = ANY_WIDTH;
    none.opened.complete(Optional.empty());
    return none;
  }

  /**
   * For single keys: no Enter, no echo. Ctrl-S, Ctrl-Z and Ctrl-\ are keys like any other: they
   * would hold the program up in the middle of a motion. Ctrl-C stays what it is.
   */
  static Tty forKeys() {
    return begun(
        terminal -> {
          terminal.enterRawMode();
          Attributes keys = terminal.getAttributes();
          keys.setControlChar(ControlChar.VSUSP, 0);
          keys.setControlChar(ControlChar.VQUIT, 0);
          terminal.setAttributes(keys);
        });
  }

  private static Tty begun(Consumer<Terminal> change) {
    Tty tty = new Tty();
    Thread opening = new Thread(() -> tty.open(change), "terminal");
    opening.setDaemon(true);
    opening.start();
    return tty;
  }

  private void open(Consumer<Terminal> change) {
    try {
      Terminal terminal =
          TerminalBuilder.builder()
              .provider(TerminalBuilder.PROP_PROVIDER_EXEC)
              .dumb(false)
              .nativeSignals(false)
              .systemOutput(TerminalBuilder.SystemOutput.SysOutOrSysErr)
              .build();
      measure(terminal);
      Signals.register("WINCH", () -> measure(terminal));
      change.accept(terminal);
      opened.complete(Optional.of(terminal));
    } catch (IOException | RuntimeException e) {
      // No stty, or a kind of terminal of its own: lines and the usual width do.
      opened.complete(Optional.empty());
    }
  }

  private void measure(Terminal terminal) {
    int columns = terminal.getWidth();
    width = columns > 0 ? columns : USUAL_WIDTH;
  }

  /**
   * Columns; where nothing is known yet the usual number, and very many where there is no screen.
   */
  int width() {
    return width;
  }

  /** The same, once it is known: for what is shown when nothing moves any more. */
  int knownWidth() {
    try {
      return opened.thenApply(terminal -> width).get(LONGEST_OPEN_SECONDS, TimeUnit.SECONDS);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      return width;
    } catch (ExecutionException | TimeoutException e) {
      return width;
    }
  }

  /** Its keys, once it is open; empty if it can't be. */
  Optional<NonBlockingReader> reader() {
    return opened.join().map(Terminal::reader);
  }

  /** Gives the terminal back as it was; if it is held up, that happens once it goes on. */
  @Override
  public void close() {
    CompletableFuture<Void> closed = opened.thenAcceptAsync(t -> t.ifPresent(Tty::close));
    try {
      closed.get(LONGEST_CLOSE_SECONDS, TimeUnit.SECONDS);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    } catch (ExecutionException | TimeoutException e) {
      // There is no more that can be done for it.
      return;
    }
  }

  private static void close(Terminal terminal) {
    try {
      terminal.close();
    } catch (IOException e) {
      // It is gone: nothing is left to give back.
      return;
    }
  }
}
