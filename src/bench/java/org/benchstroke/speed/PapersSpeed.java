package org.benchstroke.speed;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.benchstroke.aids.diagnosis.TwinAndCauses;
import org.benchstroke.app.FiledRecords;
import org.benchstroke.judge.JudgedRun;
import org.benchstroke.papers.HtmlReport;
import org.benchstroke.papers.JsonReport;
import org.benchstroke.papers.Language;
import org.benchstroke.papers.PaperSize;
import org.benchstroke.papers.Signatory;
import org.benchstroke.papers.sheets.Edition;
import org.benchstroke.papers.sheets.Issue;
import org.benchstroke.papers.sheets.Papers;
import org.benchstroke.papers.sheets.RealRecord;
import org.benchstroke.papers.sheets.Subject;
import org.benchstroke.record.RecordReader;
import org.benchstroke.record.RunRecord;
import org.benchstroke.tests.RecordedRun;

/** From the record of a routine acceptance, a quarter of an hour, to its report and certificate. */
final class PapersSpeed {
  /** As the installed program starts its machine. */
  private static final List<String> LAUNCHED =
      List.of("-XX:TieredStopAtLevel=1", "-XX:+UseSerialGC");

  private final Path folder;

  PapersSpeed(Path folder) {
    this.folder = folder;
  }

  void run(Extent extent) throws Exception {
    Path file = RealRecord.routine("healthy-b", folder.resolve("routine.jsonl"));
    System.out.printf(
        Locale.ROOT, "%nPapers of a routine acceptance, %.1f MB%n", Files.size(file) / 1e6);
    for (int round = 0; round < extent.of(12, 1); round++) {
      warm(file);
    }
    int rounds = extent.of(7, 1);
    cold("judge", rounds, "judge", file.toString());
    cold("certificate", rounds, certificate(file));
  }

  private static void warm(Path file) throws Exception {
    long begin = System.nanoTime();
    RunRecord record = RecordReader.read(file);
    long read = System.nanoTime();
    JudgedRun run = RecordedRun.judge(record);
    long judged = System.nanoTime();
    TwinAndCauses aids = new TwinAndCauses(run);
    int report =
        new HtmlReport().html(aids, Optional.of("routine.jsonl")).length()
            + new JsonReport().json(aids).length();
    long reported = System.nanoTime();
    Subject subject = Subject.of(FiledRecords.of(file, aids));
    int bytes = new Papers().certificate(subject, issue(run)).length;
    long end = System.nanoTime();
    System.out.printf(
        Locale.ROOT,
        "| read %.0f ms | judge %.0f ms | report and JSON %.0f ms, %d kB |"
            + " certificate %.0f ms, %d kB |%n",
        (read - begin) / 1e6,
        (judged - read) / 1e6,
        (reported - judged) / 1e6,
        report / 1000,
        (end - reported) / 1e6,
        bytes / 1000);
  }

  private static Issue issue(JudgedRun run) {
    return new Issue(
        FiledRecords.letterhead(run, Optional.empty(), Optional.empty()),
        PaperSize.A4,
        Language.ENGLISH,
        Instant.parse("2026-06-01T10:00:00Z"),
        ZoneOffset.UTC,
        Optional.of(new Signatory("R. Invented", "head of the test shop")),
        "benchstroke",
        Issue.Said.NOTHING,
        Edition.FIRST);
  }

  private String[] certificate(Path file) {
    return new String[] {
      "report",
      file.toString(),
      "--paper",
      "certificate",
      "--authorised-by",
      "R. Invented",
      "--role",
      "head of the test shop",
      // The same issue each time: another one would have to say what it supersedes.
      "--issued",
      "2026-06-02T08:00:00Z",
      "--out",
      folder.resolve("routine.pdf").toString(),
      "--force"
    };
  }

  /** Processes of their own, from start to end. */
  private void cold(String what, int rounds, String... arguments)
      throws IOException, InterruptedException {
    List<String> command = new ArrayList<>();
    command.add(ProcessHandle.current().info().command().orElse("java"));
    command.addAll(LAUNCHED);
    command.addAll(
        List.of("-cp", System.getProperty("java.class.path"), "org.benchstroke.cli.Main"));
    command.addAll(Arrays.asList(arguments));
    List<Double> seconds = new ArrayList<>();
    for (int round = 0; round < rounds; round++) {
      long begin = System.nanoTime();
      int code =
          new ProcessBuilder(command)
              .redirectOutput(folder.resolve("said.txt").toFile())
              .redirectErrorStream(true)
              .start()
              .waitFor();
      seconds.add((System.nanoTime() - begin) / 1e9);
      if (code != 0) {
        throw new IllegalStateException(
            what + " ended with " + code + ": " + Files.readString(folder.resolve("said.txt")));
      }
    }
    seconds.sort(null);
    System.out.printf(
        Locale.ROOT,
        "| %s, a process of its own: median %.2f s, %.2f to %.2f s in %d |%n",
        what,
        seconds.get(rounds / 2),
        seconds.get(0),
        seconds.get(rounds - 1),
        rounds);
  }
}
