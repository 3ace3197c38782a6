package org.benchstroke.cli;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.FileSystemException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;
import java.time.Instant;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.util.Locale;
import java.util.UUID;

/**
 * The files that belong to a run.
 *
 * @param record the record, JSON Lines
 */
record RecordFiles(Path record) {
  static final String RECORD_END = ".jsonl";
  private static final DateTimeFormatter STAMP =
      DateTimeFormatter.ofPattern("uuuuMMdd-HHmmss", Locale.ROOT).withZone(ZoneOffset.UTC);

  /** A new name in the folder, made of the time and the unit's serial number. */
  static RecordFiles fresh(Path folder, String serial, Instant now) {
    String safe = serial.replaceAll("[^A-Za-z0-9._-]", "_");
    String base = STAMP.format(now) + "-" + safe;
    Path record = folder.resolve(base + RECORD_END);
    for (int i = 2; Files.exists(record); i++) {
      record = folder.resolve(base + "-" + i + RECORD_END);
    }
    return new RecordFiles(record);
  }

  Path report() {
    return beside(".html");
  }

  Path json() {
    return beside(".json");
  }

  private Path beside(String end) {
    String name = record.getFileName().toString();
    String base =
        name.endsWith(RECORD_END) ? name.substring(0, name.length() - RECORD_END.length()) : name;
    return record.resolveSibling(base + end);
  }

  /** Writes a text beside its final name and moves it there: half a file is never seen. */
  static void write(Path file, String text) throws IOException {
    if (Files.isDirectory(file)) {
      throw new FileSystemException(file.toString(), null, "it is a folder");
    }
    Path folder = file.toAbsolutePath().getParent();
    Files.createDirectories(folder);
    // Not createTempFile: only its owner could read that, and a colleague must.
    Path draft = folder.resolve("." + file.getFileName() + "." + UUID.randomUUID() + ".draft");
    try {
      Files.writeString(draft, text, StandardCharsets.UTF_8, StandardOpenOption.CREATE_NEW);
      Files.move(draft, file, StandardCopyOption.REPLACE_EXISTING);
    } finally {
      Files.deleteIfExists(draft);
    }
  }
}
