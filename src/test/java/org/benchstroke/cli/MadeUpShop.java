package org.benchstroke.cli;

import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.HexFormat;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.benchstroke.archive.Archive;
import org.benchstroke.archive.ArchiveFault;
import org.benchstroke.archive.ArchivePlace;
import org.benchstroke.archive.ArchivedRun;
import org.benchstroke.archive.ArchivedRun.CauseRow;
import org.benchstroke.archive.ArchivedRun.Facts;
import org.benchstroke.archive.ArchivedRun.InstrumentRow;
import org.benchstroke.archive.ArchivedRun.Labels;
import org.benchstroke.archive.ArchivedRun.MeasureRow;
import org.benchstroke.archive.ArchivedRun.RecordFile;
import org.benchstroke.archive.ArchivedRun.Result;

/** An archive of made-up runs, each an hour after the one before. One thread. */
final class MadeUpShop {
  static final Instant START = Instant.parse("2026-01-05T06:00:00Z");

  private final List<ArchivedRun> runs = new ArrayList<>();

  /** One run; what is not said is usual. Changed by its own methods. */
  static final class Made {
    private String serial = "QT-1";
    private String order = "";
    private String operator = "Ann";
    private String bench = "Bench A";
    private String type = "QT-15";
    private boolean simulated;
    private boolean whole = true;
    private boolean passed = true;
    private int flaws;
    private final List<MeasureRow> measures = new ArrayList<>();
    private final List<CauseRow> causes = new ArrayList<>();
    private final List<InstrumentRow> instruments = new ArrayList<>();

    Made serial(String value) {
      serial = value;
      return this;
    }

    Made order(String value) {
      order = value;
      return this;
    }

    Made operator(String value) {
      operator = value;
      return this;
    }

    Made bench(String value) {
      bench = value;
      return this;
    }

    Made type(String value) {
      type = value;
      return this;
    }

    Made simulated() {
      simulated = true;
      return this;
    }

    Made broken() {
      whole = false;
      passed = false;
      return this;
    }

    Made failed() {
      passed = false;
      return this;
    }

    Made damaged() {
      flaws = 1;
      return this;
    }

    /** A dead band at 50 %, known by the stem, without a limit. */
    Made value(double value) {
      return value(value, OptionalDouble.empty(), OptionalDouble.empty());
    }

    Made value(double value, OptionalDouble low, OptionalDouble high) {
      return measure("dead_band_pct", "point 50", "stem", value, low, high, Optional.empty());
    }

    Made measure(
        String kind,
        String place,
        String truth,
        double value,
        OptionalDouble low,
        OptionalDouble high,
        Optional<String> word) {
      measures.add(
          new MeasureRow(
              kind,
              place,
              OptionalDouble.empty(),
              truth,
              OptionalDouble.of(value),
              OptionalDouble.of(0.1),
              "%",
              low,
              high,
              word));
      return this;
    }

    Made failing(String kind) {
      return measure(
          kind,
          "",
          "feedback",
          9.0,
          OptionalDouble.empty(),
          OptionalDouble.of(1.0),
          Optional.of("fail"));
    }

    Made cause(String key, boolean named) {
      causes.add(new CauseRow(key, 0.5, named));
      return this;
    }

    Made instrument(String serial, String due) {
      instruments.add(
          new InstrumentRow(
              "signal source", "source", "Made-up maker", "S-1", serial, "C-" + serial, due));
      return this;
    }

    private ArchivedRun run(int number) {
      Instant begun = START.plus(Duration.ofHours(number));
      Facts facts =
          new Facts(
              begun,
              begun.plusSeconds(300),
              whole ? "complete" : "stopped",
              bench,
              "Made-up hall",
              type,
              "Short acceptance",
              "1",
              "benchstroke, made up",
              simulated,
              false);
      return new ArchivedRun(
          new RecordFile(
              sha256("made up " + number),
              "run-" + number + ".jsonl",
              "records",
              1000,
              0,
              "not sealed",
              Optional.empty(),
              flaws,
              RecordFile.RECORD),
          new Labels(
              serial, order.isEmpty() ? "order " + number : order, "", operator, Optional.empty()),
          facts,
          new Result(passed ? "pass" : "fail", "Made up.", whole, passed, Optional.empty()),
          measures,
          causes,
          instruments,
          Optional.empty());
    }
  }

  private static String sha256(String text) {
    try {
      byte[] bytes = text.getBytes(StandardCharsets.UTF_8);
      return HexFormat.of().formatHex(MessageDigest.getInstance("SHA-256").digest(bytes));
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException(e);
    }
  }

  static Made made() {
    return new Made();
  }

  /** The next run. */
  MadeUpShop add(Made made) {
    runs.add(made.run(runs.size()));
    return this;
  }

  /** Puts all of them into the archive beside these records. */
  void into(Path records) throws ArchiveFault {
    try (Archive archive = Archive.open(ArchivePlace.beside(records))) {
      archive.addAll(runs, false);
    }
  }
}
