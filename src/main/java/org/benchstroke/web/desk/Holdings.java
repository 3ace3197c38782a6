package org.benchstroke.web.desk;

import java.nio.file.Path;
import java.util.Optional;
import java.util.function.Function;
import org.benchstroke.app.Defaults;
import org.benchstroke.app.Setting;
import org.benchstroke.app.Shelf;
import org.benchstroke.app.WrongRequest;
import org.benchstroke.archive.ArchivePlace;
import org.benchstroke.bench.BenchFile;
import org.benchstroke.core.clock.BenchClock;

/**
 * What a shop has, and the desk shows. Immutable.
 *
 * @param records the folder of its records and of the checks of its benches
 * @param archive where its archive is; it need not be there yet
 * @param stated what need not be typed
 * @param files its bench files, unit types and procedures
 * @param clocks gives the clock by which a bench is probed
 * @param program name and version of the program, for papers
 */
public record Holdings(
    Path records,
    Optional<ArchivePlace> archive,
    Defaults stated,
    Shelf files,
    Function<BenchFile, BenchClock> clocks,
    String program) {
  /** The file that is stated for all runs; empty if none is, or what is stated is no file. */
  Optional<Path> file(Setting setting) {
    try {
      return stated.file(setting, Optional.empty());
    } catch (WrongRequest e) {
      return Optional.empty();
    }
  }
}
