package org.benchstroke.cli;

import java.nio.file.Path;
import org.benchstroke.app.GivenFiles;
import org.benchstroke.app.WrongRequest;
import org.benchstroke.bench.BenchFile;
import org.benchstroke.bench.BenchFileReader;
import org.benchstroke.core.toml.FileMistakes;
import org.benchstroke.unit.UnitType;
import org.benchstroke.unit.UnitTypeReader;
import picocli.CommandLine.Option;

/** The options of every command that moves a unit by hand: which bench, which unit, who answers. */
final class HandOptions {
  @Option(names = "--bench", required = true, paramLabel = "FILE", description = "The bench file.")
  private Path bench;

  @Option(
      names = "--unit-type",
      required = true,
      paramLabel = "FILE",
      description = "The unit type file.")
  private Path unitType;

  @Option(
      names = "--unattended",
      description =
          "Answers the cautions itself and takes what is typed from a file or a pipe, too; on a"
              + " simulated bench only.")
  private boolean unattended;

  /**
   * The two files.
   *
   * @param bench the bench file
   * @param unit the unit type file
   */
  record Files(GivenFiles.Given<BenchFile> bench, GivenFiles.Given<UnitType> unit) {}

  /**
   * Reads both.
   *
   * @throws FileMistakes with every mistake in either
   */
  Files read() throws FileMistakes {
    GivenFiles files = new GivenFiles();
    Files read =
        new Files(
            files.read(bench, BenchFileReader::read), files.read(unitType, UnitTypeReader::read));
    files.finish();
    return read;
  }

  boolean unattended() {
    return unattended;
  }

  /** Refuses what can't be: nobody at a real bench, or nobody who can be asked. */
  void requireAllowed(Input in, BenchFile file) throws WrongRequest {
    boolean simulated = file.simulation().isPresent();
    if (!unattended) {
      in.requirePerson(simulated);
    } else if (!simulated) {
      throw realBench(bench);
    }
  }

  /** That nobody was to answer the cautions of a real bench. */
  static WrongRequest realBench(Object bench) {
    return new WrongRequest(
        bench
            + ": --unattended is for simulated benches only; on a real one a person answers the"
            + " cautions");
  }
}
