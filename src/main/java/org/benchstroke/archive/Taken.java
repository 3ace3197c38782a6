package org.benchstroke.archive;

import java.nio.file.Path;
import java.util.Optional;
import org.benchstroke.core.toml.FileMistakes;
import org.benchstroke.record.RecordReader;
import org.benchstroke.record.Seal;

/**
 * A file that was read for the archive.
 *
 * @param file the file
 * @param state what it turned out to be
 * @param run what is kept of it; empty if nothing can be
 * @param detail what is wrong, as the rest of a sentence; empty if nothing is
 */
public record Taken(Path file, State state, Optional<ArchivedRun> run, String detail) {
  /** What a record turned out to be. */
  public enum State {
    SOUND("sound"),
    NOT_SEALED("not sealed"),
    RENAMED("renamed after it was sealed"),
    DAMAGED("damaged"),
    CHANGED("changed after it was sealed"),
    UNREADABLE("no record, or not readable");

    private final String text;

    State(String text) {
      this.text = text;
    }

    public String text() {
      return text;
    }
  }

  /**
   * Reads a file; whatever it holds is an answer.
   *
   * @param judge whether it is judged in any case; else the judgement beside it is taken
   */
  public static Taken of(Path file, boolean judge) {
    try {
      ArchivedRun run = judge ? ReadRun.judged(file) : ReadRun.of(file);
      return new Taken(file, state(run), Optional.of(run), "");
    } catch (RecordReader.NotARecord e) {
      return unreadable(file, e.getMessage());
    } catch (FileMistakes e) {
      return unreadable(file, "a file that it holds can't be read any more: " + e.getMessage());
    } catch (RuntimeException e) {
      // One strange file must not cost the others their place.
      return unreadable(file, "it can't be judged: " + e);
    }
  }

  private static Taken unreadable(Path file, String message) {
    String line = message.lines().findFirst().orElse("");
    String detail = line.startsWith(file + ": ") ? line.substring((file + ": ").length()) : line;
    return new Taken(file, State.UNREADABLE, Optional.empty(), detail);
  }

  private static State state(ArchivedRun run) {
    String seal = run.file().seal();
    if (seal.equals(Seal.State.BROKEN.text())) {
      return State.CHANGED;
    }
    if (run.file().flaws() > 0) {
      return State.DAMAGED;
    }
    if (seal.equals(Seal.State.RENAMED.text())) {
      return State.RENAMED;
    }
    return seal.equals(Seal.State.NOT_SEALED.text()) ? State.NOT_SEALED : State.SOUND;
  }
}
