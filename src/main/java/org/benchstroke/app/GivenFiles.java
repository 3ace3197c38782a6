package org.benchstroke.app;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.benchstroke.bench.BenchFile;
import org.benchstroke.bench.BenchFileReader;
import org.benchstroke.bench.BenchText;
import org.benchstroke.core.clock.BenchClock;
import org.benchstroke.core.clock.SharedClock;
import org.benchstroke.core.clock.SystemClock;
import org.benchstroke.core.toml.FileMistakes;
import org.benchstroke.core.toml.Mistake;
import org.benchstroke.core.toml.TomlDocument;
import org.benchstroke.record.Event;

/** Reads the files that a command names, and tells the mistakes of all of them at once. */
public final class GivenFiles {
  private final List<Mistake> mistakes = new ArrayList<>();

  /** Reads one kind of file. */
  public interface Reader<T> {
    T read(TomlDocument document) throws FileMistakes;
  }

  /**
   * A file with what was read from it.
   *
   * @param path where it is
   * @param text what stands in it
   * @param found what was read; empty if there were mistakes
   */
  public record Given<T>(Path path, String text, Optional<T> found) {
    /** What was read; only after {@link GivenFiles#finish()}. */
    public T value() {
      return found.orElseThrow();
    }

    public Event.SourceFile source(String kind) {
      return new Event.SourceFile(kind, path.getFileName().toString(), text);
    }
  }

  /** A bench file; its text holds what it uses of other files. */
  public Given<BenchFile> bench(Path path) {
    try {
      BenchText whole = BenchText.of(path);
      return new Given<>(path, whole.text(), Optional.of(BenchFileReader.read(whole.document())));
    } catch (FileMistakes e) {
      mistakes.addAll(e.mistakes());
      return new Given<>(path, "", Optional.empty());
    }
  }

  public <T> Given<T> read(Path path, Reader<T> reader) {
    try {
      String text = TomlDocument.textOf(path);
      return new Given<>(
          path, text, Optional.of(reader.read(TomlDocument.parse(path.toString(), text))));
    } catch (FileMistakes e) {
      mistakes.addAll(e.mistakes());
      return new Given<>(path, "", Optional.empty());
    }
  }

  /**
   * Ends the reading.
   *
   * @throws FileMistakes if there was any mistake in any file
   */
  public void finish() throws FileMistakes {
    if (!mistakes.isEmpty()) {
      throw new FileMistakes(mistakes);
    }
  }

  /** The machine's own, or that of a simulated bench, shared with who serves it. */
  public static BenchClock systemClockOf(BenchFile bench) {
    return bench.simulation().map(GivenFiles::simulatedClock).orElseGet(SystemClock::realTime);
  }

  private static BenchClock simulatedClock(BenchFile.Simulation simulation) {
    return simulation
        .clock()
        .flatMap(file -> SharedClock.join(Path.of(file)))
        .<BenchClock>map(shared -> shared)
        .orElseGet(() -> SystemClock.scaled(simulation.timeScale()));
  }
}
