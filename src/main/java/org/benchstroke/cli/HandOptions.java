package org.benchstroke.cli;

import java.nio.file.Path;
import java.util.Optional;
import org.benchstroke.app.Defaults;
import org.benchstroke.app.GivenFiles;
import org.benchstroke.app.Setting;
import org.benchstroke.app.WrongRequest;
import org.benchstroke.bench.BenchFile;
import org.benchstroke.core.toml.FileMistakes;
import org.benchstroke.unit.UnitType;
import org.benchstroke.unit.UnitTypeReader;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;

/** The options of every command that moves a unit by hand: which bench, which unit, who answers. */
final class HandOptions {
  @Option(
      names = "--bench",
      paramLabel = "FILE",
      description = "The bench file (default: what is stated).")
  private Optional<String> bench = Optional.empty();

  @Option(
      names = "--unit-type",
      paramLabel = "FILE",
      description = "The unit type file (default: what is stated).")
  private Optional<String> unitType = Optional.empty();

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
   * Reads both, and tells which they are where nobody named them: the unit moves by them.
   *
   * @throws FileMistakes with every mistake in either
   */
  Files read(CommandSpec spec) throws FileMistakes, WrongRequest {
    Defaults stated = ShopOption.found(spec);
    Path benchFile = NeededFile.of(spec, stated, Setting.BENCH, bench);
    Path typeFile = NeededFile.of(spec, stated, Setting.UNIT_TYPE, unitType);
    GivenFiles files = new GivenFiles();
    Files read = new Files(files.bench(benchFile), files.read(typeFile, UnitTypeReader::read));
    files.finish();
    if (bench.isEmpty() || unitType.isEmpty()) {
      Shown.out(spec).println("Bench file " + benchFile + ", unit type file " + typeFile);
    }
    return read;
  }

  boolean unattended() {
    return unattended;
  }

  /** Refuses what can't be: nobody at a real bench, or nobody who can be asked. */
  void requireAllowed(Input in, GivenFiles.Given<BenchFile> given) throws WrongRequest {
    boolean simulated = given.value().simulation().isPresent();
    if (!unattended) {
      in.requirePerson(simulated);
    } else if (!simulated) {
      throw realBench(given.path());
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
