package org.benchstroke.imported;

import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import org.benchstroke.core.toml.FileMistakes;
import org.benchstroke.record.RunRecord;

/**
 * Makes a record of a file of comma-separated values that others wrote. It knows no test: each is
 * found by what its kind says of itself. Immutable, safe for any thread.
 */
public final class CsvImport {
  private final TestsInFile tests;

  /** With the kinds of test that a file can show, in the order in which they are looked for. */
  public CsvImport(List<TestInFile<?>> kinds) {
    this.tests = new TestsInFile(kinds);
  }

  /**
   * Reads a trace (time, setpoint, position and more) or typed readings (setpoint, direction,
   * reading), as its columns tell.
   *
   * @param file the file
   * @param columns what its columns are, "time=T:s" each, where the header doesn't say it
   * @param given what it is judged with
   * @throws FileMistakes with file, line and column of what can't be taken
   */
  public RunRecord record(Path file, List<String> columns, ImportSetup given) throws FileMistakes {
    CsvSheet sheet = CsvSheet.read(file);
    Map<String, Column> found = Columns.of(sheet, columns);
    Cells.require(sheet, found);
    boolean trace = found.containsKey("time") || found.containsKey("position");
    boolean readings =
        List.of("reading", "direction", "cycle").stream().anyMatch(found::containsKey);
    if (!trace && !readings) {
      throw Columns.unknown(sheet);
    }
    return readings && !found.containsKey("time")
        ? TypedImport.record(sheet, found, given, tests)
        : TraceImport.record(sheet, found, given, tests);
  }
}
