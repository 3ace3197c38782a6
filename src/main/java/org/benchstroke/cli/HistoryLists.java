package org.benchstroke.cli;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.StringJoiner;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVPrinter;
import org.benchstroke.archive.ArchivedRun.Heading;
import org.benchstroke.archive.ArchivedRun.Worst;
import org.benchstroke.archive.JobLine;
import org.benchstroke.archive.YieldLine;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.judge.Word;
import org.benchstroke.papers.Json;

/** What the archive answered, as tables of 80 columns or for other programs. One thread. */
final class HistoryLists {
  private static final int MINUTE = 16;
  private static final int DAY = 10;

  /** Lines end as all that is printed does. */
  private static final CSVFormat LINES =
      CSVFormat.RFC4180.builder().setRecordSeparator(System.lineSeparator()).get();

  private final Shown out;
  private final int most;

  /** How it is printed. */
  enum Form {
    TABLE,
    JSON,
    CSV
  }

  /** A table's column: its head and its width. */
  private record Column(String head, int width) {}

  private static final List<Column> RUNS =
      List.of(
          new Column("begun (UTC)", MINUTE),
          new Column("serial", 13),
          new Column("order", 9),
          new Column("type", 13),
          new Column("verdict", MINUTE),
          new Column("", 3));

  private static final List<Column> JOBS =
      List.of(
          new Column("last run", DAY),
          new Column("serial", 13),
          new Column("order", 9),
          new Column("runs", 4),
          new Column("1st", 3),
          new Column("as found", MINUTE),
          new Column("as left", MINUTE),
          new Column("", 2));

  private static final List<Column> YIELDS =
      List.of(
          new Column("type", 40),
          new Column("jobs", 8),
          new Column("1st passes", DAY),
          new Column("yield", 7));

  /**
   * Prints there.
   *
   * @param most how many lines; one more that was found says that there are others
   */
  HistoryLists(Shown out, int most) {
    this.out = out;
    this.most = most;
  }

  void runs(List<Heading> runs, Form form) {
    List<Heading> shown = runs.stream().limit(most).toList();
    if (form == Form.TABLE) {
      table(RUNS, shown.stream().map(HistoryLists::row).toList());
      more(runs.size());
    } else {
      data(shown.stream().map(HistoryLists::fields).toList(), form);
    }
  }

  void jobs(List<JobLine> jobs, Form form) {
    List<JobLine> shown = jobs.stream().limit(most).toList();
    if (form == Form.TABLE) {
      table(JOBS, shown.stream().map(HistoryLists::row).toList());
      more(jobs.size());
    } else {
      data(shown.stream().map(HistoryLists::fields).toList(), form);
    }
  }

  void yields(List<YieldLine> yields, Form form) {
    if (form == Form.TABLE) {
      table(YIELDS, yields.stream().map(HistoryLists::row).toList());
    } else {
      data(yields.stream().map(HistoryLists::fields).toList(), form);
    }
  }

  private void more(int found) {
    if (found > most) {
      out.println("There are more, older ones: --most " + 10L * most + ", or ask for less.");
    }
  }

  private static List<String> row(Heading run) {
    return List.of(
        run.facts().begun().toString().replace('T', ' ').substring(0, MINUTE),
        run.labels().serial(),
        run.labels().order(),
        run.facts().unitType(),
        ofUnit(run.result().verdict()),
        marks(run));
  }

  private static String marks(Heading run) {
    return (run.facts().simulated() ? "S" : "")
        + (run.facts().imported() ? "I" : "")
        + (run.result().whole() ? "" : "-")
        + (run.file().flaws() > 0 ? "!" : "");
  }

  private static List<String> row(JobLine job) {
    return List.of(
        job.last().toString().substring(0, DAY),
        job.serial(),
        job.order(),
        String.valueOf(job.attempts()),
        job.firstPass().map(pass -> pass ? "yes" : "no").orElse("–"),
        job.asFound().map(HistoryLists::ofUnit).orElse("–"),
        job.asLeft().map(HistoryLists::ofUnit).orElse("–"),
        (job.simulated() ? "S" : "") + (job.wholeAttempts() == 0 ? "-" : ""));
  }

  private static List<String> row(YieldLine line) {
    return List.of(
        line.unitType(),
        String.valueOf(line.jobs()),
        String.valueOf(line.firstPasses()),
        Numbers.fixed(100.0 * line.firstPasses() / line.jobs(), 1) + " %");
  }

  /** A word that this version does not know stays as it is. */
  private static String ofUnit(String verdict) {
    return Arrays.stream(Word.values())
        .filter(word -> word.text().equals(verdict))
        .map(Word::ofUnit)
        .findFirst()
        .orElse(verdict);
  }

  private void table(List<Column> columns, List<List<String>> rows) {
    out.println(line(columns, columns.stream().map(Column::head).toList()));
    rows.forEach(row -> out.println(line(columns, row)));
    if (rows.isEmpty()) {
      out.println("Nothing in the archive is like that.");
    }
  }

  private static String line(List<Column> columns, List<String> cells) {
    StringJoiner line = new StringJoiner(" ");
    for (int i = 0; i < columns.size(); i++) {
      line.add(fitted(cells.get(i), columns.get(i).width()));
    }
    return line.toString().stripTrailing();
  }

  private static String fitted(String text, int width) {
    int length = text.codePointCount(0, text.length());
    return length <= width
        ? text + " ".repeat(width - length)
        : text.substring(0, text.offsetByCodePoints(0, width - 1)) + "…";
  }

  private static Map<String, Object> fields(Heading run) {
    Map<String, Object> fields = new LinkedHashMap<>();
    fields.put("begun_utc", run.facts().begun().toString());
    fields.put("ended_utc", run.facts().ended().toString());
    fields.put("serial", run.labels().serial());
    fields.put("order", run.labels().order());
    fields.put("customer", run.labels().customer());
    fields.put("operator", run.labels().operator());
    fields.put("bench", run.facts().bench());
    fields.put("type", run.facts().unitType());
    fields.put("procedure", run.facts().procedure());
    fields.put("verdict", run.result().verdict());
    fields.put("passed", run.result().passed());
    fields.put("whole", run.result().whole());
    fields.put("ending", run.facts().ending());
    fields.put("simulated", run.facts().simulated());
    fields.put("imported", run.facts().imported());
    fields.put("seal", run.file().seal());
    fields.put("flaws", run.file().flaws());
    Optional<Worst> worst = run.result().worst();
    fields.put("worst_margin", worst.map(w -> (Object) w.margin()).orElse(""));
    fields.put("worst_kind", worst.map(Worst::kind).orElse(""));
    fields.put("worst_place", worst.map(Worst::place).orElse(""));
    fields.put("record", run.file().name());
    fields.put("folder", run.file().folder());
    fields.put("sha256", run.file().sha256());
    return fields;
  }

  private static Map<String, Object> fields(JobLine job) {
    Map<String, Object> fields = new LinkedHashMap<>();
    fields.put("serial", job.serial());
    fields.put("order", job.order());
    fields.put("type", job.unitType());
    fields.put("simulated", job.simulated());
    fields.put("runs", job.attempts());
    fields.put("whole_runs", job.wholeAttempts());
    fields.put("first_pass", job.firstPass().map(pass -> (Object) pass).orElse(""));
    fields.put("as_found", job.asFound().orElse(""));
    fields.put("as_left", job.asLeft().orElse(""));
    fields.put("first_begun_utc", job.first().toString());
    fields.put("last_begun_utc", job.last().toString());
    return fields;
  }

  private static Map<String, Object> fields(YieldLine line) {
    Map<String, Object> fields = new LinkedHashMap<>();
    fields.put("type", line.unitType());
    fields.put("jobs", line.jobs());
    fields.put("first_passes", line.firstPasses());
    return fields;
  }

  /** What does not exist has no key in JSON, and an empty cell in a table. */
  private void data(List<Map<String, Object>> all, Form form) {
    if (form == Form.JSON) {
      all.forEach(fields -> fields.values().removeIf(""::equals));
      out.print(Json.page(all));
      return;
    }
    try {
      CSVPrinter printer = new CSVPrinter(out, LINES);
      if (!all.isEmpty()) {
        printer.printRecord(all.get(0).keySet());
      }
      for (Map<String, Object> fields : all) {
        printer.printRecord(fields.values());
      }
    } catch (IOException e) {
      throw new UncheckedIOException("what is shown is never refused", e);
    }
  }
}
