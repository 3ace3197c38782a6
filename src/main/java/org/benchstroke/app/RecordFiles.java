package org.benchstroke.app;

import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.util.Locale;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.benchstroke.record.SealFile;

/**
 * The files that belong to a run.
 *
 * @param record the record, JSON Lines
 */
public record RecordFiles(Path record) {
  public static final String RECORD_END = ".jsonl";
  private static final int SERIAL_IN_NAME = 60;
  private static final Pattern MADE = Pattern.compile("[0-9]{8}-[0-9]{6}-(.*)\\.jsonl");
  private static final Pattern NUMBER = Pattern.compile("[0-9]+");
  private static final DateTimeFormatter STAMP =
      DateTimeFormatter.ofPattern("uuuuMMdd-HHmmss", Locale.ROOT).withZone(ZoneOffset.UTC);

  /** A new name in the folder, made of the time and the unit's serial number. */
  public static RecordFiles fresh(Path folder, String serial, Instant now) {
    String base = stamped(serial, now);
    RecordFiles files = new RecordFiles(folder.resolve(base + RECORD_END));
    for (int i = 2; files.anyThere(); i++) {
      files = new RecordFiles(folder.resolve(base + "-" + i + RECORD_END));
    }
    return files;
  }

  /** How a name begins: names sort by time, and say of which unit they may be. */
  static String stamped(String serial, Instant now) {
    return STAMP.format(now) + "-" + inName(serial);
  }

  /** What a name holds of a serial number: several may share it. */
  private static String inName(String serial) {
    String safe = serial.replaceAll("[^A-Za-z0-9._-]", "_");
    return safe.substring(0, Math.min(SERIAL_IN_NAME, safe.length()));
  }

  /** Whether a name made by {@link #fresh} may be of this serial number. */
  static boolean mayBeOf(String serial, String name) {
    Matcher made = MADE.matcher(name);
    String kept = inName(serial);
    return made.matches()
        && (made.group(1).equals(kept)
            || (made.group(1).startsWith(kept + "-")
                && NUMBER.matcher(made.group(1).substring(kept.length() + 1)).matches()));
  }

  private boolean anyThere() {
    return Files.exists(record)
        || Files.exists(report())
        || Files.exists(json())
        || Files.exists(SealFile.of(record));
  }

  public Path report() {
    return beside(".html");
  }

  public Path json() {
    return beside(".json");
  }

  /** A paper of the run, PDF. */
  public Path paper(String kind) {
    return beside("-" + kind + ".pdf");
  }

  private Path beside(String end) {
    String name = record.getFileName().toString();
    String base =
        name.endsWith(RECORD_END) ? name.substring(0, name.length() - RECORD_END.length()) : name;
    return record.resolveSibling(base + end);
  }
}
