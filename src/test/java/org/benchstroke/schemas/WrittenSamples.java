package org.benchstroke.schemas;

import com.fasterxml.jackson.databind.JsonNode;
import java.io.IOException;
import java.io.Writer;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collection;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.benchstroke.acceptance.VirtualBench;
import org.benchstroke.aids.diagnosis.TwinAndCauses;
import org.benchstroke.app.Reports;
import org.benchstroke.cli.CommandFiles;
import org.benchstroke.judge.Adjustment;
import org.benchstroke.papers.JsonReport;
import org.benchstroke.papers.Signatory;
import org.benchstroke.papers.sheets.RealRecord;
import org.benchstroke.record.Entry;
import org.benchstroke.record.Event;
import org.benchstroke.record.Label;
import org.benchstroke.record.RecordWriter;
import org.benchstroke.record.RunRecord;

/** Judgements and records of many runs, as the program writes them. */
final class WrittenSamples {
  private static final Path BENCHES = Path.of("demo-data/benches");
  private static final Path PROCEDURES = Path.of("demo-data/procedures");
  private static final Optional<Signatory> BY =
      Optional.of(new Signatory("A. Sample (invented)", "head of the test shop"));

  /** A run is long, and its samples are all alike: so many lines of each are kept. */
  private static final int KEPT = 400;

  private final Path folder;
  private final Map<String, JsonNode> judgements = new LinkedHashMap<>();
  private final List<JsonNode> lines = new ArrayList<>();
  private final Map<String, JsonNode> kinds = new LinkedHashMap<>();

  WrittenSamples(Path folder) throws Exception {
    this.folder = folder;
    for (String simulation :
        List.of("zero-shift", "dead-spot", "loop-resistance-too-high", "reversed-action")) {
      judged(simulation, VirtualBench.with(simulation));
    }
    judged("type test", with("slack-after-sensor", "type-test-bench", "routine-acceptance"));
    judged("certified", certified());
    judged("partial stroke", with("healthy-b", "type-test-bench", "partial-stroke"));
    judged("hunting", with("dead-band-too-small", "type-test-bench", "hunting"));
    judged("by hand", with("healthy-b", "by-hand", "by-hand"));
    judged("relay", with("healthy-b", "motor-power-relay", "short-acceptance"));
    judged("pneumatic", VirtualBench.with("pneumatic-sound"));
    judged("bad link", VirtualBench.with("bad-link"));
    goneOn();
    adjusted();
    fromCommands();
  }

  private static VirtualBench with(String simulation, String bench, String procedure) {
    return VirtualBench.with(simulation, BENCHES.resolve(bench + ".toml"))
        .tests(RealRecord.tests(PROCEDURES.resolve(procedure + ".toml")));
  }

  /** A bench whose source has a certificate with figures. */
  private static VirtualBench certified() {
    return VirtualBench.with("healthy-b", BENCHES.resolve("angle-reference.toml"));
  }

  private void judged(String name, VirtualBench bench) throws Exception {
    judged(name, bench.runInto(folder.resolve(name.replace(' ', '-') + ".jsonl")));
  }

  private void judged(String name, Path record) throws Exception {
    TwinAndCauses aids = new TwinAndCauses(Reports.judge(record));
    judgements.put(name, tree(new JsonReport().json(aids)));
    judgements.put(name + ", in a paper", tree(new JsonReport().json(aids.run(), BY)));
    keep(record);
  }

  private static JsonNode tree(String text) throws IOException {
    return JsonSchema.MAPPER.readTree(text);
  }

  private void keep(Path record) throws IOException {
    List<String> all = Files.readAllLines(record);
    Map<String, Integer> count = new LinkedHashMap<>();
    for (String text : all) {
      String kind = text.replaceFirst(".*?\"kind\":\"([a-z_]+)\".*", "$1");
      if (count.merge(kind, 1, Integer::sum) <= KEPT / 10) {
        JsonNode line = tree(text);
        lines.add(line);
        kinds.putIfAbsent(kind, line);
      }
    }
  }

  /** A run that goes on with an earlier one, and that somebody allowed: its lines alone. */
  private void goneOn() throws Exception {
    RunRecord run = VirtualBench.with("healthy-b").run();
    List<Entry> entries = new ArrayList<>(run.entries());
    Event job = new Event.Job("", Map.of(), Map.of(Label.SUPERVISOR, "C. Instance"));
    entries.add(1, new Entry(2, 0, entries.get(0).utc(), job));
    Event.Resumed from = new Event.Resumed("earlier.jsonl", "0".repeat(64), 40);
    entries.add(2, new Entry(3, 0, entries.get(0).utc(), from));
    entries.add(3, new Entry(4, 0, entries.get(0).utc(), setUp()));
    Event passed = new Event.SwitchPassed("closed", true, "wheel", -0.4, 0.05, 0.1);
    entries.add(4, new Entry(5, 0, entries.get(0).utc(), passed));
    Path file = folder.resolve("gone-on.jsonl");
    try (Writer out = Files.newBufferedWriter(file)) {
      RecordWriter.write(out, new RunRecord(entries, List.of()));
    }
    judged("gone on", file);
  }

  private static Event setUp() {
    Event.SetUpStep display =
        new Event.SetUpStep(
            "display", "done", "", Map.of("dead_band_pct", 0.5), Map.of("direction", "reverse"));
    return new Event.SetUp(
        "earlier.set-up",
        "0".repeat(64),
        "2026-06-01T08:00:00Z",
        "Ann",
        "complete",
        List.of(display));
  }

  private void adjusted() throws Exception {
    Path found = RealRecord.of(VirtualBench.with("zero-shift"), folder.resolve("found.jsonl"));
    VirtualBench later = VirtualBench.with("healthy-b");
    later.clock().waitUntil(900_000_000_000L);
    Path left = RealRecord.of(later, folder.resolve("left.jsonl"));
    keep(left);
    TwinAndCauses before = new TwinAndCauses(Reports.judge(found));
    TwinAndCauses after = new TwinAndCauses(Reports.judge(left));
    Adjustment both = new Adjustment(before.run(), after.run(), "Zero turned down.");
    judgements.put("adjusted", tree(new JsonReport().json(both, before, after, BY)));
    judgements.put("adjusted, in a paper", tree(new JsonReport().json(both, BY)));
    judgements.put("authorised", tree(new JsonReport().json(after, BY)));
  }

  /** A sealed and amended run with all that can be stated of a job, and what others recorded. */
  private void fromCommands() throws Exception {
    Path run = CommandFiles.runWithEveryFact(folder.resolve("facts"));
    judged("facts", run);
    judgements.put("amended", tree(CommandFiles.amended(run)));
    Path record = folder.resolve("imported.jsonl");
    judgements.put("readings", tree(CommandFiles.readings(record)));
    keep(record);
    judgements.put("trace", tree(CommandFiles.trace(folder.resolve("trace.jsonl"))));
    keep(folder.resolve("trace.jsonl"));
  }

  Map<String, JsonNode> judgements() {
    return judgements;
  }

  List<JsonNode> lines() {
    return lines;
  }

  Collection<JsonNode> oneOfEachKind() {
    return kinds.values();
  }
}
