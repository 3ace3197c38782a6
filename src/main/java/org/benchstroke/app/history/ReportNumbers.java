package org.benchstroke.app.history;

import java.nio.file.Files;
import java.nio.file.Path;
import java.time.DateTimeException;
import java.time.Instant;
import java.time.LocalDateTime;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.util.Locale;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.benchstroke.app.Reports;
import org.benchstroke.app.WrongRequest;
import org.benchstroke.archive.Archive;
import org.benchstroke.archive.ArchiveFault;
import org.benchstroke.archive.ArchivedRun.Heading;
import org.benchstroke.archive.RunFilter;
import org.benchstroke.core.toml.FileMistakes;
import org.benchstroke.papers.ReportPages;
import org.benchstroke.record.RecordReader;

/** Finds the record of a report by its number, by the time in it. One thread. */
public final class ReportNumbers {
  private static final Pattern STAMP = Pattern.compile("-([0-9]{8}T[0-9]{6})Z(-A[0-9]+)?$");
  private static final DateTimeFormatter WRITTEN =
      DateTimeFormatter.ofPattern("uuuuMMdd'T'HHmmss", Locale.ROOT);
  private static final int MOST = 1000;

  private final Archive archive;

  public ReportNumbers(Archive archive) {
    this.archive = archive;
  }

  /**
   * The record.
   *
   * @throws WrongRequest if the archive knows none, or it is not where it was
   */
  public Path record(String number) throws WrongRequest, ArchiveFault {
    return file(run(number));
  }

  /**
   * The run, as the archive has it.
   *
   * @throws WrongRequest if the archive knows none, or its record is not where it was
   */
  public Heading run(String number) throws WrongRequest, ArchiveFault {
    Instant begun = begun(number);
    Instant end = begun.plusSeconds(1);
    for (Heading run : archive.runs(RunFilter.between(begun, end), MOST)) {
      Path file = file(run);
      if (Files.exists(file) && isOf(file, number)) {
        return run;
      }
    }
    throw new WrongRequest(
        number
            + ": the archive has no run with this report number whose record is still in its"
            + " folder; name the record itself");
  }

  private static Path file(Heading run) {
    return Path.of(run.file().folder()).resolve(run.file().name());
  }

  private static boolean isOf(Path file, String number) {
    try {
      return ReportPages.number(Reports.judge(file)).equals(number);
    } catch (RecordReader.NotARecord | FileMistakes e) {
      return false;
    }
  }

  private static Instant begun(String number) throws WrongRequest {
    Matcher stamp = STAMP.matcher(number);
    try {
      if (stamp.find()) {
        return LocalDateTime.parse(stamp.group(1), WRITTEN).toInstant(ZoneOffset.UTC);
      }
    } catch (DateTimeException e) {
      // No time: said below.
      throw unknown(number);
    }
    throw unknown(number);
  }

  private static WrongRequest unknown(String number) {
    return new WrongRequest(
        number
            + ": is no report number of a run of this program, such as"
            + " BS-QT-0042-20260601T081500Z; name the record itself");
  }
}
