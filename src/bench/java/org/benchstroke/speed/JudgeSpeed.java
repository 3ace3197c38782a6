package org.benchstroke.speed;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.benchstroke.acceptance.VirtualBench;
import org.benchstroke.aids.diagnosis.TwinAndCauses;
import org.benchstroke.core.files.WholeFile;
import org.benchstroke.judge.JudgedRun;
import org.benchstroke.papers.HtmlReport;
import org.benchstroke.papers.JsonReport;
import org.benchstroke.record.Event;
import org.benchstroke.record.RecordReader;
import org.benchstroke.record.RecordWriter;
import org.benchstroke.record.RunRecord;
import org.benchstroke.tests.RecordedRun;

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

  private static final String SHORT_TEST =
      """
      [[test]]
      test = "step response"
      at_pct = 50
      sizes_pct = [10]
      """;

  private final Path folder;

  JudgeSpeed(Path folder) {
    this.folder = folder;
  }

  void run(Extent extent) throws Exception {
    Path file = folder.resolve("long.jsonl");
    String tests = extent == Extent.WHOLE ? TESTS : SHORT_TEST;
    RunRecord made = VirtualBench.with("healthy-b").tests(tests).run();
    WholeFile.write(file, out -> RecordWriter.write(out, made));
    long samples = made.events(Event.Sampled.class).count();
    System.out.printf(
        Locale.ROOT, "%nJudging %d samples, %.0f MB%n", samples, Files.size(file) / 1e6);
    if (!judgement(command(file, extent))
        .equals(judgement(new JsonReport().json(new TwinAndCauses(RecordedRun.judge(made)))))) {
      throw new IllegalStateException("the record on disk is judged otherwise than the run");
    }
    for (int round = 0; round < extent.of(3, 1); round++) {
      long begin = System.nanoTime();
      RunRecord record = RecordReader.read(file);
      long read = System.nanoTime();
      JudgedRun run = RecordedRun.judge(record);
      long judged = System.nanoTime();
      String html = new HtmlReport().html(new TwinAndCauses(run), Optional.of("long.jsonl"));
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

  /** All but which file it is of, and what is sealed of that. */
  private static JsonNode judgement(String json) throws IOException {
    return ((ObjectNode) new ObjectMapper().readTree(json))
        .without(List.of("record", "seal", "seal_detail", "seal_key", "amendments"));
  }

  /** As users meet it: a process of its own. Gives what it prints. */
  private String command(Path file, Extent extent) throws IOException, InterruptedException {
    Path told = folder.resolve("time.txt");
    Path json = folder.resolve("judged.json");
    List<String> command = new ArrayList<>();
    if (extent == Extent.WHOLE) {
      command.addAll(
          List.of("time", "--output=" + told, "--format=%e s, %U s of work, %M KiB at most"));
    }
    command.addAll(
        List.of(
            ProcessHandle.current().info().command().orElse("java"),
            "-cp",
            System.getProperty("java.class.path"),
            "org.benchstroke.cli.Main",
            "judge",
            "--json",
            file.toString()));
    int code =
        new ProcessBuilder(command)
            .redirectOutput(json.toFile())
            .redirectError(ProcessBuilder.Redirect.INHERIT)
            .start()
            .waitFor();
    String took = extent == Extent.WHOLE ? Files.readString(told).strip() : "not timed";
    System.out.printf(
        Locale.ROOT, "| judge, a process of its own, exit code %d | %s |%n", code, took);
    return Files.readString(json);
  }
}
