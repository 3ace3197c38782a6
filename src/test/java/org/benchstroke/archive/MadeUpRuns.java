package org.benchstroke.archive;

import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.time.Instant;
import java.util.ArrayList;
import java.util.HexFormat;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.benchstroke.archive.ArchivedRun.CauseRow;
import org.benchstroke.archive.ArchivedRun.Facts;
import org.benchstroke.archive.ArchivedRun.InstrumentRow;
import org.benchstroke.archive.ArchivedRun.Labels;
import org.benchstroke.archive.ArchivedRun.MeasureRow;
import org.benchstroke.archive.ArchivedRun.RecordFile;
import org.benchstroke.archive.ArchivedRun.Result;
import org.benchstroke.archive.ArchivedRun.Worst;

/**
 * Runs of a shop that is made up: a job of one or two runs each, sixteen types, a run every eight
 * minutes. The number of a run says all of it, so that every process makes the same.
 */
public final class MadeUpRuns {
  /** When the first of them began. */
  public static final Instant START = Instant.parse("2023-01-02T06:00:00Z");

  /** From one begin to the next, s. */
  public static final int SECONDS_APART = 480;

  private static final List<String> KINDS =
      List.of("travel_error_pct", "hysteresis_pct", "dead_band_pct", "stroke_time_opening_s");

  private final int measures;

  /** Each with so many measures. */
  public MadeUpRuns(int measures) {
    this.measures = measures;
  }

  /** When a run began. */
  public static Instant begun(int number) {
    return START.plusSeconds((long) number * SECONDS_APART);
  }

  /** The serial number of its unit. */
  public static String serial(int number) {
    return "QT-" + number / 3 * 2 + (number % 3 == 2 ? "-B" : "");
  }

  /** Whether it passed: of three runs one fails, and its unit passes after that. */
  public static boolean passed(int number) {
    return number % 3 != 0;
  }

  public static String type(int number) {
    return "Made-up type " + number % 16;
  }

  /** A run by its number. */
  public ArchivedRun run(int number) {
    String word = passed(number) ? "pass" : "fail";
    List<MeasureRow> rows = measures(number);
    Facts facts =
        new Facts(
            begun(number),
            begun(number).plusSeconds(300),
            "complete",
            "Bench " + number % 4,
            "Made-up hall",
            type(number),
            "Short acceptance",
            "1",
            "benchstroke, made up",
            false,
            false);
    String sha256 = sha256("run " + number);
    return new ArchivedRun(
        new RecordFile(
            sha256,
            "run-" + number + ".jsonl",
            "records",
            1000L + number,
            0,
            "sealed",
            Optional.of("0123456789abcdef"),
            0,
            RecordFile.RECORD),
        new Labels(
            serial(number),
            "order " + number / 30,
            "Made-up customer",
            "Ann",
            number % 2 == 0 ? Optional.of("TAG-" + number) : Optional.empty()),
        facts,
        new Result(word, "Made up.", true, passed(number), Worst.of(rows)),
        rows,
        List.of(
            new CauseRow("zero_shift", 0.75, !passed(number)),
            new CauseRow("span_error", 0.125, false)),
        List.of(
            new InstrumentRow(
                "signal source",
                "source",
                "Made-up maker",
                "S-1",
                "S" + number % 4,
                "C-1",
                "2030-01-01")),
        Optional.empty());
  }

  private List<MeasureRow> measures(int number) {
    List<MeasureRow> rows = new ArrayList<>();
    for (int i = 0; i < measures; i++) {
      double value = (number * 31 + i * 17) % 97 / 100.0;
      rows.add(
          new MeasureRow(
              KINDS.get(i % KINDS.size()),
              "side " + i * 10 + " up",
              OptionalDouble.of(i * 10.0),
              "feedback",
              OptionalDouble.of(value),
              OptionalDouble.of(0.1),
              "%",
              OptionalDouble.empty(),
              i % 2 == 0 ? OptionalDouble.of(1.0) : OptionalDouble.empty(),
              i % 2 == 0 ? Optional.of("pass") : Optional.empty()));
    }
    return rows;
  }

  static String sha256(String text) {
    try {
      return HexFormat.of()
          .formatHex(
              MessageDigest.getInstance("SHA-256").digest(text.getBytes(StandardCharsets.UTF_8)));
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException(e);
    }
  }
}
