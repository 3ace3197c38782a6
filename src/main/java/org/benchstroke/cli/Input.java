package org.benchstroke.cli;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.util.Optional;
import java.util.function.BooleanSupplier;
import org.benchstroke.app.WrongRequest;
import picocli.CommandLine.Model.CommandSpec;

/**
 * A command's standard input. It is handed to the commands and never looked up by them: a program
 * that carries a command out within itself, as a test does, keeps its own to itself.
 */
final class Input {
  private final InputStream stream;
  private final BooleanSupplier atTerminal;

  private Input(InputStream stream, BooleanSupplier atTerminal) {
    this.stream = stream;
    this.atTerminal = atTerminal;
  }

  /** This process's own. */
  static Input standard() {
    return new Input(System.in, Terminals::isInput);
  }

  /** What a file or a pipe holds: nobody is there to be asked. */
  static Input piped(InputStream stream) {
    return new Input(stream, () -> false);
  }

  /** A command's. */
  static Input of(CommandSpec spec) {
    return Root.of(spec).input();
  }

  InputStream stream() {
    return stream;
  }

  /** Whether a person can be asked: it is a terminal, and no file and no pipe. */
  boolean canAnswer() {
    return atTerminal.getAsBoolean();
  }

  /** A line that is not shown while it is typed; empty if nothing was typed, or nobody is there. */
  Optional<String> secret(String question) {
    return canAnswer() ? Terminals.secret(question) : Optional.empty();
  }

  /**
   * A line that a person types or scans, without the blanks at its ends; what was typed before the
   * question does not answer it, but for the beginning of a line that was not ended. Empty if
   * nothing was typed, or nobody is there.
   *
   * @param talk where it is asked
   */
  Optional<String> line(Shown talk, String question) throws IOException {
    if (!canAnswer()) {
      return Optional.empty();
    }
    forgetTyped();
    talk.print(question);
    talk.flush();
    ByteArrayOutputStream typed = new ByteArrayOutputStream();
    for (int next = stream.read(); next >= 0 && next != '\n'; next = stream.read()) {
      typed.write(next);
    }
    String line = typed.toString(StandardCharsets.UTF_8).strip();
    return Optional.of(line).filter(l -> !l.isEmpty());
  }

  private void forgetTyped() throws IOException {
    // A terminal can't skip.
    for (int ahead = stream.available(); ahead > 0; ahead = stream.available()) {
      if (stream.readNBytes(ahead).length < ahead) {
        return;
      }
    }
  }

  /**
   * Insists on a person who answers the cautions: what comes from a file or a pipe was written
   * before the question.
   *
   * @param simulated whether the bench is simulated, so that nobody need be there
   */
  void requirePerson(boolean simulated) throws WrongRequest {
    if (!canAnswer()) {
      throw new WrongRequest(
          "Nobody can answer the cautions: standard input is not a terminal, and a file or a pipe"
              + " can't answer them. Start it at a terminal"
              + (simulated ? ", or with --unattended, since this bench is simulated." : "."));
    }
  }
}
