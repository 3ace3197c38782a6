package org.benchstroke.cli;

import java.io.PrintWriter;
import java.io.Writer;
import java.util.Optional;
import org.benchstroke.core.quantity.Visible;
import picocli.CommandLine.Model.CommandSpec;

/**
 * Where every command writes what people read: control characters in it are written out, and only a
 * {@link Control} of our own acts on the terminal. Writing never waits. Any thread, though lines of
 * several threads mix.
 */
final class Shown extends PrintWriter {
  /** What acts on a terminal (ECMA-48), apart from text. */
  enum Control {
    BELL("\u0007"),
    CLEAR_LINE("\r\u001b[K"),
    LINE_UP("\u001b[1A"),
    /** Back to where the cursor was, and away from there: as DEC's terminals do it. */
    KEEP_PLACE("\u001b7"),
    BACK_TO_PLACE("\u001b8"),
    RUB_OUT("\b \b");

    private final String sequence;

    Control(String sequence) {
      this.sequence = sequence;
    }
  }

  private final PrintWriter plain;
  private final Optional<Outlet> outlet;

  private Shown(PrintWriter plain) {
    super(new WrittenOut(plain), true);
    this.plain = plain;
    this.outlet =
        plain instanceof OutletWriter stream ? Optional.of(stream.outlet()) : Optional.empty();
  }

  /** Around what takes text as it is. */
  static Shown on(PrintWriter plain) {
    return plain instanceof Shown shown ? shown : new Shown(plain);
  }

  /** A command's standard output. */
  static Shown out(CommandSpec spec) {
    return on(spec.commandLine().getOut());
  }

  /** A command's standard error. */
  static Shown err(CommandSpec spec) {
    return on(spec.commandLine().getErr());
  }

  /** Nothing is shown. */
  static Shown nothing() {
    return new Shown(new PrintWriter(Writer.nullWriter()));
  }

  /** Acts on the terminal, where there is one. */
  void control(Control... controls) {
    for (Control control : controls) {
      plain.print(control.sequence);
    }
  }

  /** How many bytes the terminal has not taken yet. */
  int waiting() {
    flush();
    return outlet.map(Outlet::waiting).orElse(0);
  }

  /**
   * Waits until all of it is out, but not longer than this.
   *
   * @return whether it is; also where nothing can get out any more
   */
  boolean drain(long millis) {
    flush();
    if (outlet.isEmpty()) {
      return true;
    }
    try {
      return outlet.get().drain(millis);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      return false;
    }
  }

  /** Text on its way, its control characters written out. */
  private static final class WrittenOut extends Writer {
    private final PrintWriter plain;

    WrittenOut(PrintWriter plain) {
      this.plain = plain;
    }

    @Override
    public void write(char[] text, int from, int length) {
      plain.print(Visible.of(new String(text, from, length)));
    }

    @Override
    public void write(String text, int from, int length) {
      plain.print(Visible.of(text.substring(from, from + length)));
    }

    @Override
    public void flush() {
      plain.flush();
    }

    @Override
    public void close() {
      plain.flush();
    }
  }
}
