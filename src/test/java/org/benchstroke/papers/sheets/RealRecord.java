package org.benchstroke.papers.sheets;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.io.Writer;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.benchstroke.acceptance.VirtualBench;
import org.benchstroke.record.Entry;
import org.benchstroke.record.Event;
import org.benchstroke.record.RecordWriter;
import org.benchstroke.record.RunRecord;
import org.benchstroke.record.SealFile;
import org.benchstroke.record.signing.BenchKeys;
import org.benchstroke.record.signing.NoKey;

/**
 * Records as a real bench leaves them, sealed: runs of a simulated unit, of which the record is
 * written anew without the mark of a simulation. No program but a test can do that.
 */
public final class RealRecord {
  public static final Path ROUTINE = Path.of("demo-data/procedures/routine-acceptance.toml");

  private static final Event.Job JOB =
      new Event.Job(
          "Invented Pumps", Map.of(Event.Job.TEMPERATURE, 22.5, Event.Job.HUMIDITY, 41.0));

  private static final String SHOP =
      """

      [laboratory]
      name = "Harbour Lane Actuator Service (invented)"
      address = "1 Harbour Lane, 00000 Sampleton (invented)"
      """;

  private RealRecord() {}

  /** A run of a simulated unit, sealed in a file. */
  public static Path of(VirtualBench bench, Path file) {
    return of(bench, file, "QT-104-0231");
  }

  /** Likewise, with a serial number. */
  public static Path of(VirtualBench bench, Path file, String serial) {
    return of(bench.run(), file, serial);
  }

  /** Likewise, of a simulation with the routine procedure. */
  public static Path routine(String simulation, Path file) {
    return of(VirtualBench.with(simulation).tests(tests(ROUTINE)), file);
  }

  /** The tables of a procedure file. */
  public static String tests(Path procedure) {
    try {
      String text = Files.readString(procedure);
      return text.substring(text.indexOf("[[test]]"));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static Path of(RunRecord run, Path file, String serial) {
    List<Entry> entries = new ArrayList<>(run.entries());
    Entry first = entries.get(0);
    entries.set(0, new Entry(1, 0, first.utc(), real((Event.Opened) first.event(), serial)));
    entries.add(1, new Entry(2, 0, first.utc(), JOB));
    try (Writer out = Files.newBufferedWriter(file)) {
      RecordWriter.write(out, new RunRecord(entries, List.of()));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    try {
      SealFile.write(file, new BenchKeys(Path.of("target/test-keys")).open(""));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    } catch (NoKey e) {
      throw new IllegalStateException(e.getMessage(), e);
    }
    return file;
  }

  private static Event real(Event.Opened o, String serial) {
    List<Event.SourceFile> files = new ArrayList<>(o.files());
    Event.SourceFile bench = files.get(0);
    String shop = bench.text().contains("[laboratory]") ? "\n" : SHOP;
    String text = bench.text().replaceFirst("(?s)\n\\[simulation].*?(?=\n\\[|$)", shop);
    files.set(0, new Event.SourceFile(bench.kind(), bench.name(), text));
    Event.SourceFile procedure = files.get(2);
    String named = procedure.text().replace("name = \"Test\"", "name = \"Routine acceptance\"");
    files.set(2, new Event.SourceFile(procedure.kind(), procedure.name(), named));
    return new Event.Opened(
        o.format(), o.tool(), "", 1.0, serial, "J. Invented", "PO 4711", "+02:00", files);
  }
}
