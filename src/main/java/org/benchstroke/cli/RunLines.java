package org.benchstroke.cli;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.benchstroke.app.RecordFiles;
import org.benchstroke.core.clock.Stopwatch;
import org.benchstroke.judge.JudgedRun;
import org.benchstroke.papers.Json;
import org.benchstroke.procedure.Expansion;
import org.benchstroke.record.Entry;
import org.benchstroke.record.EntryText;
import org.benchstroke.record.Event;
import org.benchstroke.run.Progress;
import org.benchstroke.run.Spectator;

/**
 * Tells a run to a program, an object of JSON on each line: its plan, what happens but for single
 * readings, how far it is at most ten times a second, and how it ended. The thread of its watcher;
 * its end, the command's.
 */
final class RunLines implements Spectator {
  private static final long EVERY_NANOS = 100_000_000L;

  private final Shown out;
  private Optional<Stopwatch> told = Optional.empty();

  RunLines(Shown out) {
    this.out = out;
  }

  @Override
  public void planned(Expansion plan) {
    List<Map<String, Object>> tests =
        plan.tests().stream()
            .map(
                test -> {
                  Map<String, Object> each = new LinkedHashMap<>();
                  each.put("test", test.name());
                  each.put("steps", test.actions().size());
                  each.put("seconds", test.seconds());
                  return each;
                })
            .toList();
    Map<String, Object> line = begun("plan");
    line.put("seconds", plan.seconds());
    line.put("tests", tests);
    tell(line);
  }

  @Override
  public void happened(Entry entry) {
    if (!(entry.event() instanceof Event.Sampled)) {
      out.println("{\"line\":\"event\"," + EntryText.of(entry).substring(1));
      out.flush();
    }
  }

  @Override
  public void progressed(Progress progress) {
    if (told.isPresent() && told.get().nanos() < EVERY_NANOS) {
      return;
    }
    told = Optional.of(new Stopwatch());
    Map<String, Object> line = begun("progress");
    line.put("test", progress.test());
    line.put("setpoint_pct", progress.setpointPercent());
    progress.positionPercent().ifPresent(position -> line.put("position_pct", position));
    line.put("state", progress.state());
    line.put("seconds_left", progress.secondsLeft());
    line.put("done", progress.done());
    tell(line);
  }

  /** The run is judged, and its files are written. */
  void judged(JudgedRun run, int exitCode, RecordFiles files) {
    Map<String, Object> line = begun("end");
    line.put("exit_code", exitCode);
    line.put("passed", run.passed());
    line.put("verdict", run.verdict().text());
    line.put("record", files.record().toString());
    line.put("report", files.report().toString());
    line.put("judgement", files.json().toString());
    tell(line);
  }

  /** The run has no whole record, and is not judged. */
  void lost(String reason, int exitCode) {
    Map<String, Object> line = begun("end");
    line.put("exit_code", exitCode);
    line.put("passed", false);
    line.put("reason", reason);
    tell(line);
  }

  private static Map<String, Object> begun(String kind) {
    Map<String, Object> line = new LinkedHashMap<>();
    line.put("line", kind);
    return line;
  }

  private void tell(Map<String, Object> line) {
    out.println(Json.line(line));
    out.flush();
  }
}
