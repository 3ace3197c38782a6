package org.benchstroke.simulator.practice;

import java.nio.file.Path;
import java.util.List;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.benchstroke.aids.diagnosis.Cause;
import org.benchstroke.core.toml.FileMistakes;
import org.benchstroke.core.toml.TomlDocument;
import org.benchstroke.judge.JudgedRun;
import org.benchstroke.procedure.Procedure;
import org.benchstroke.record.RunRecord;
import org.benchstroke.simulator.SimulatedBench;
import org.benchstroke.simulator.practice.VirtualRun.InputFile;
import org.benchstroke.tests.ProcedureReader;
import org.benchstroke.tests.RecordedRun;
import org.benchstroke.unit.UnitType;
import org.benchstroke.unit.UnitTypeReader;

/**
 * Drawn units, one after the other on the same bench by the same procedure. Immutable; any thread.
 */
public final class DrawnUnits {
  private static final Pattern LIMITS = Pattern.compile("(?m)^\\[limits].*$");

  private final Path unitTypeFile;
  private final String bench;
  private final InputFile<UnitType> unitType;
  private final InputFile<Procedure> procedure;
  private final String linkFaults;

  private DrawnUnits(
      Path unitTypeFile,
      String bench,
      InputFile<UnitType> unitType,
      InputFile<Procedure> procedure,
      String linkFaults) {
    this.unitTypeFile = unitTypeFile;
    this.bench = bench;
    this.unitType = unitType;
    this.procedure = procedure;
    this.linkFaults = linkFaults;
  }

  /**
   * Reads the files.
   *
   * @param folder where unit types, benches and procedures of the demo data are
   * @param procedure the procedure's name there
   * @throws FileMistakes if one of them can't be read
   */
  public static DrawnUnits of(Path folder, String procedure) throws FileMistakes {
    Path type = folder.resolve("unit-types/quarter-turn-15s.toml");
    Path tests = folder.resolve("procedures/" + procedure + ".toml");
    return new DrawnUnits(
        type,
        TomlDocument.textOf(folder.resolve("benches/type-test-bench.toml")),
        new InputFile<>(UnitTypeReader.read(type), TomlDocument.textOf(type)),
        new InputFile<>(ProcedureReader.read(tests), TomlDocument.textOf(tests)),
        "");
  }

  /** Another agreement with the customer: more limits, as lines of the table {@code [limits]}. */
  public DrawnUnits withLimits(String lines) throws FileMistakes {
    String added = Matcher.quoteReplacement("\n" + lines.stripTrailing());
    String text = LIMITS.matcher(unitType.text()).replaceFirst("$0" + added);
    return new DrawnUnits(
        unitTypeFile,
        bench,
        new InputFile<>(UnitTypeReader.read(TomlDocument.parse("unit-type.toml", text)), text),
        procedure,
        linkFaults);
  }

  /** Another procedure, given as the tables {@code [[test]]} of its file. */
  public DrawnUnits withTests(String tables) throws FileMistakes {
    String text =
        """
        kind = "procedure"
        format = 1
        name = "Practice"
        version = "1"
        """
            + tables;
    return new DrawnUnits(
        unitTypeFile,
        bench,
        unitType,
        new InputFile<>(ProcedureReader.read(TomlDocument.parse("procedure.toml", text)), text),
        linkFaults);
  }

  /** The same on links that fail, as tables {@code [[fault]]} of their simulation files. */
  public DrawnUnits withLinkFaults(String tables) {
    return new DrawnUnits(unitTypeFile, bench, unitType, procedure, tables);
  }

  /** On a bench without the instruments of these names. */
  public DrawnUnits without(Set<String> instruments) {
    String left = without(bench, instruments);
    return new DrawnUnits(unitTypeFile, left, unitType, procedure, linkFaults);
  }

  /** The text of a bench file without the instruments of these names. */
  public static String without(String bench, Set<String> instruments) {
    return Pattern.compile("(?=\\[\\[instrument\\]\\])")
        .splitAsStream(bench)
        .filter(t -> instruments.stream().noneMatch(i -> t.contains("name = \"" + i + '"')))
        .collect(Collectors.joining());
  }

  /** A run against a unit with one fault, not begun yet. */
  public VirtualRun run(Cause cause, Severity severity, long seed) {
    return run(List.of(Fault.of(cause, severity, seed)), seed);
  }

  /** A run against a unit with these faults, not begun yet. */
  public VirtualRun run(List<Fault> faults, long seed) {
    try {
      return new VirtualRun(
          SimulatedBench.around(
              FaultDraw.unit(faults, seed, unitTypeFile, linkFaults), "bench.toml", bench),
          unitType,
          procedure);
    } catch (FileMistakes e) {
      throw new IllegalStateException(e.getMessage(), e);
    }
  }

  /** Runs and judges. */
  public JudgedRun judge(Cause cause, Severity severity, long seed) {
    return judge(run(cause, severity, seed).record());
  }

  /** Runs a unit with these faults, and judges. */
  public JudgedRun judge(List<Fault> faults, long seed) {
    return judge(run(faults, seed).record());
  }

  /** Judges a record of such a run. */
  static JudgedRun judge(RunRecord record) {
    try {
      return RecordedRun.judge(record);
    } catch (FileMistakes e) {
      throw new IllegalStateException(e.getMessage(), e);
    }
  }
}
