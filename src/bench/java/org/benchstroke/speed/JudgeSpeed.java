package org.benchstroke.speed;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.benchstroke.acceptance.VirtualBench;
import org.benchstroke.diagnosis.Aids;
import org.benchstroke.files.WholeFile;
import org.benchstroke.record.Event;
import org.benchstroke.record.RecordReader;
import org.benchstroke.record.RecordWriter;
import org.benchstroke.record.RunRecord;
import org.benchstroke.report.HtmlReport;
import org.benchstroke.verdict.JudgedRun;
import org.benchstroke.verdict.RecordedRun;

/** Judging a long record: a simulated type test with holds of an hour, about a million samples. */
final class JudgeSpeed {
  private static final String TESTS =
      """
      [[test]]
      test = "travel error"
      points_pct = [0, 10, 20, 30, 40, 50, 60, 70, 80, 90, 100]
      cycles = 3

      [[test]]
      test = "dead band"
      at_pct = [25, 50, 75]
      step_pct = 0.05
      most_pct = 3
      cycles = 2

      [[test]]
      test = "step response"
      at_pct = 50
      sizes_pct = [0.5, 1, 2, 5, 10, 50]

      [[test]]
      test = "ramp"
      from_pct = 0
      to_pct = 100
      stroke_times = 30

      [[test]]
      test = "hunting"
      points_pct = [5, 10, 20, 30, 35, 40, 50, 60, 65, 70, 80, 90, 95]
      hold_s = 3600

      [[test]]
      test = "hunting"
      points_pct = [5, 10, 20, 30, 35, 40, 50, 60, 65, 70, 80, 90, 95]
      hold_s = 3600

      [[test]]
      test = "endurance"
      cycles = 100
      """;

  private final Path folder;

  JudgeSpeed(Path folder) {
    this.folder = folder;
  }

  void run() throws Exception {
    Path file = folder.resolve("long.jsonl");
    RunRecord made = VirtualBench.with("healthy-b").tests(TESTS).run();
    WholeFile.write(file, out -> RecordWriter.write(out, made));
    long samples = made.events(Event.Sampled.class).count();
    System.out.printf(
        Locale.ROOT, "%nJudging %d samples, %.0f MB%n", samples, Files.size(file) / 1e6);
    command(file);
    for (int round = 0; round < 3; round++) {
      long begin = System.nanoTime();
      RunRecord record = RecordReader.read(file);
      long read = System.nanoTime();
      JudgedRun run = RecordedRun.judge(record);
      long judged = System.nanoTime();
      String html = new HtmlReport().html(new Aids(run), Optional.of("long.jsonl"));
      long end = System.nanoTime();
      System.out.printf(
          Locale.ROOT,
          "| read %.2f s | judge %.2f s | report of %.1f MB %.2f s |%n",
          (read - begin) / 1e9,
          (judged - read) / 1e9,
          html.length() / 1e6,
          (end - judged) / 1e9);
    }
  }

  /** As users meet it: a process of its own. */
  private void command(Path file) throws IOException, InterruptedException {
    Path told = folder.resolve("time.txt");
    Process process =
        new ProcessBuilder(
                List.of(
                    "time",
                    "--output=" + told,
                    "--format=%e s, %U s of work, %M KiB at most",
                    ProcessHandle.current().info().command().orElse("java"),
                    "-cp",
                    System.getProperty("java.class.path"),
                    "org.benchstroke.cli.Main",
                    "judge",
                    file.toString()))
            .redirectOutput(ProcessBuilder.Redirect.DISCARD)
            .redirectError(ProcessBuilder.Redirect.INHERIT)
            .start();
    int code = process.waitFor();
    String text = Files.readString(told, StandardCharsets.US_ASCII).strip();
    System.out.printf(
        Locale.ROOT, "| judge, a process of its own, exit code %d | %s |%n", code, text);
  }
}
