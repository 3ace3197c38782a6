package org.benchstroke.cli;

import java.io.IOException;
import java.nio.file.Path;
import java.time.DateTimeException;
import java.time.Instant;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.concurrent.Callable;
import java.util.stream.Stream;
import org.benchstroke.app.Archiving;
import org.benchstroke.app.BenchChecks;
import org.benchstroke.app.BenchChecks.Checked;
import org.benchstroke.app.BenchChecks.Occasion;
import org.benchstroke.app.BenchLinks;
import org.benchstroke.app.Defaults;
import org.benchstroke.app.ExitCode;
import org.benchstroke.app.GivenFiles;
import org.benchstroke.app.OutputFiles;
import org.benchstroke.app.Reports;
import org.benchstroke.app.Setting;
import org.benchstroke.app.ShopFile;
import org.benchstroke.app.WrongRequest;
import org.benchstroke.archive.ArchiveFault;
import org.benchstroke.bench.BenchFile;
import org.benchstroke.commission.HandResult;
import org.benchstroke.commission.LoopReading;
import org.benchstroke.core.clock.BenchClock;
import org.benchstroke.core.clock.SystemClock;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.core.statistics.CheckState;
import org.benchstroke.core.toml.FileMistakes;
import org.benchstroke.judge.JudgedRun;
import org.benchstroke.judge.Judgement;
import org.benchstroke.papers.Json;
import org.benchstroke.record.CheckNames;
import org.benchstroke.record.Event;
import org.benchstroke.record.Label;
import org.benchstroke.record.RecordReader;
import org.benchstroke.run.StopSwitch;
import org.benchstroke.unit.MeasureKind;
import org.benchstroke.unit.UnitType;
import org.benchstroke.unit.UnitTypeReader;
import picocli.CommandLine.ArgGroup;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** The bench's own check. */
@Command(
    name = "bench-check",
    description = {
      Commands.BENCH_CHECK,
      "The first ten readings of a reference are its baseline. Beyond 3σ no run begins on this bench"
          + " until a good check, or a supervisor's note. Without a new reading it shows what there"
          + " is."
    },
    mixinStandardHelpOptions = true,
    sortOptions = false,
    footer = {
      "",
      "Exit codes: 0 no reference says stop; 1 one does; 2 the request was wrong;",
      "            3 the loop could not be read.",
      "",
      "Examples:",
      "  benchstroke bench-check --bench bench.toml --loop unit.toml --operator Ann",
      "  benchstroke bench-check --bench bench.toml --from records/today.jsonl \\",
      "      --operator Ann",
      "  benchstroke bench-check --bench bench.toml --svg check.svg"
    })
final class BenchCheckCommand implements Callable<Integer>, LeavesMore {
  /** Further off is a slip of the pen, or of the order. */
  private static final double FURTHEST_MILLIAMPS = 2.0;

  @Option(
      names = "--bench",
      paramLabel = "FILE",
      description = "The bench file (default: what is stated).")
  private Optional<String> bench = Optional.empty();

  /** Where a new reading is from. */
  private static final class Reading {
    @Option(
        names = "--loop",
        paramLabel = "UNIT",
        description =
            "Reads the loop at both ends and in the middle of this unit type's signal. Cautions are"
                + " shown first; the motor supply is off.")
    private Optional<String> loop = Optional.empty();

    @Option(
        names = "--from",
        paramLabel = "RECORD",
        description =
            "Takes the readings from a run: of its preflight's loop, or with --measure a reference"
                + " unit's.")
    private Optional<Path> from = Optional.empty();

    @Option(
        names = "--read",
        split = ",",
        paramLabel = "mA",
        description = "Three readings of the loop by eye, at 4, 12 and 20 mA: 4.001,12.000,19.998.")
    private List<Double> read = List.of();

    @Option(
        names = "--note",
        paramLabel = "TEXT",
        description = "Answers what was no good: what was found, and done. Needs --supervisor.")
    private Optional<String> note = Optional.empty();

    @Option(
        names = "--amend",
        paramLabel = "TIME",
        description =
            "Amends a reading that was typed wrong: of this time (UTC), with --reference, --to,"
                + " --reason and --supervisor. Its line stays.")
    private Optional<String> amend = Optional.empty();
  }

  /** What is amended, and why. */
  private static final class Amending {
    @Option(
        names = "--reference",
        required = true,
        paramLabel = "TEXT",
        description = "With --amend: the reading's reference, such as \"loop at 4 mA\".")
    private String reference = "";

    @Option(
        names = "--to",
        required = true,
        paramLabel = "VALUE",
        description = "With --amend: what it should have been; none takes it back.")
    private String to = "";

    @Option(
        names = "--reason",
        required = true,
        paramLabel = "TEXT",
        description = "With --amend: why.")
    private String reason = "";
  }

  /** Null where none of its options was given. */
  @ArgGroup(exclusive = false)
  private Amending amending;

  @ArgGroup private Reading reading = new Reading();

  @Option(
      names = "--measure",
      paramLabel = "KEY",
      description = "With --from: all values of this measure; the unit's serial number names it.")
  private Optional<String> measure = Optional.empty();

  @Option(
      names = "--operator",
      paramLabel = "NAME",
      description = "Who checks (default: who is stated).")
  private Optional<String> operator = Optional.empty();

  @Option(
      names = "--supervisor",
      paramLabel = "NAME",
      description =
          "With --note or --amend: who answers; must be on the shop's list if it has one.")
  private Optional<String> supervisor = Optional.empty();

  @Option(
      names = "--new-baseline",
      description = "With --note: readings before it are no longer compared with.")
  private boolean newBaseline;

  @Option(
      names = "--unattended",
      description = "With --loop: answers the cautions itself; on a simulated bench only.")
  private boolean unattended;

  @Mixin private ShopOption shop;

  @Mixin private RecordsOption records;

  @Mixin private ArchiveOption archive;

  @Option(names = "--json", description = "Prints JSON.")
  private boolean json;

  @Mixin private PictureOption picture;

  @Spec private CommandSpec spec;

  @Override
  public Integer call() throws Exception {
    Defaults stated = shop.read(spec);
    operator = stated.text(Setting.OPERATOR, operator);
    Path benchFile = NeededFile.of(spec, stated, Setting.BENCH, bench);
    Optional<Path> typeFile =
        reading.loop.isEmpty() ? Optional.empty() : stated.file(Setting.UNIT_TYPE, reading.loop);
    GivenFiles files = new GivenFiles();
    GivenFiles.Given<BenchFile> given = files.bench(benchFile);
    Optional<GivenFiles.Given<UnitType>> unit =
        typeFile.map(path -> files.read(path, UnitTypeReader::read));
    files.finish();
    OutputFiles outputs =
        picture.outputs().given("bench file", benchFile).given("record", reading.from);
    Optional<OutputFiles.Place> place = picture.place(outputs);
    BenchFile file = given.value();
    BenchChecks checks = new BenchChecks(records.folder(stated));
    boolean simulated = file.simulation().isPresent();
    Optional<Occasion> occasion;
    if (unit.isPresent()) {
      Optional<Map<String, Double>> read = loop(given, unit.get().value());
      if (read.isEmpty()) {
        return ExitCode.NOT_COMPLETED;
      }
      occasion = Optional.of(occasion(file, person(), "the loop", read.get(), false));
    } else {
      occasion = told(file, stated.shop());
    }
    if (reading.amend.isPresent()) {
      amend(checks, file, supervisor(stated.shop()));
    } else if (amending != null) {
      throw new WrongRequest("--reference, --to and --reason go with --amend");
    }
    if (occasion.isPresent()) {
      checks.append(occasion.get());
    }
    if (occasion.isPresent() || reading.amend.isPresent()) {
      archived(stated);
    }
    List<Checked> judged = BenchChecks.judged(checks.of(file.name(), simulated));
    show(file, judged);
    PictureOption.draw(place, BenchChecks.drawings(file, judged));
    return judged.stream().anyMatch(Checked::stops) ? ExitCode.NOT_PASSED : ExitCode.PASSED;
  }

  /** Only a supervisor may: a reading that stops the bench must not be typed away. */
  private void amend(BenchChecks checks, BenchFile file, String who)
      throws WrongRequest, IOException {
    Amending what =
        Optional.ofNullable(amending)
            .orElseThrow(() -> new WrongRequest("--amend: add --reference, --to and --reason"));
    WrongRequest.requireWords("--reason", what.reason);
    OptionalDouble to = OptionalDouble.empty();
    Instant at;
    try {
      at = Instant.parse(reading.amend.orElseThrow());
      to = what.to.equals("none") ? to : OptionalDouble.of(Double.parseDouble(what.to));
    } catch (DateTimeException e) {
      throw new WrongRequest(
          "--amend: found \""
              + reading.amend.orElseThrow()
              + "\", allowed is a time by UTC, like 2026-06-01T08:00:00Z");
    } catch (NumberFormatException e) {
      throw new WrongRequest("--to: found \"" + what.to + "\", allowed is a number, or none");
    }
    if (to.isPresent() && !Double.isFinite(to.getAsDouble())) {
      throw new WrongRequest("--to: found \"" + what.to + "\", allowed is a number, or none");
    }
    Instant now = SystemClock.realTime().utc();
    boolean simulated = file.simulation().isPresent();
    checks.amend(file.name(), simulated, at, what.reference, to, who, what.reason.strip(), now);
  }

  /** So that whoever asks for all benches finds it. */
  private void archived(Defaults stated) throws ArchiveFault, WrongRequest {
    Path folder = records.folder(stated);
    archive
        .ifAny(folder, stated)
        .ifPresent(place -> Archiving.afterCheck(place, folder).forEach(Shown.err(spec)::println));
  }

  /** What was stated, apart from what the bench is asked for. */
  private Optional<Occasion> told(BenchFile file, Optional<ShopFile> stated)
      throws WrongRequest, FileMistakes, RecordReader.NotARecord {
    if (reading.amend.isPresent()) {
      return Optional.empty();
    }
    if (reading.note.isPresent()) {
      WrongRequest.requireWords("--note", reading.note.get());
      String who = supervisor(stated);
      return Optional.of(occasion(file, who, reading.note.get().strip(), Map.of(), true));
    }
    if (supervisor.isPresent() || newBaseline) {
      throw new WrongRequest("--supervisor and --new-baseline go with --note");
    }
    if (reading.from.isPresent()) {
      Path record = reading.from.get();
      Map<String, Double> found = from(file, record);
      return Optional.of(occasion(file, person(), record.getFileName().toString(), found, false));
    }
    if (measure.isPresent()) {
      throw new WrongRequest("--measure: goes with --from, the record of a run");
    }
    return reading.read.isEmpty()
        ? Optional.empty()
        : Optional.of(occasion(file, person(), "read by eye", typed(), false));
  }

  private Occasion occasion(
      BenchFile file, String who, String from, Map<String, Double> found, boolean note) {
    Instant now = SystemClock.realTime().utc();
    boolean simulated = file.simulation().isPresent();
    return new Occasion(now, file.name(), simulated, who, from, found, note, newBaseline);
  }

  private String person() throws WrongRequest {
    if (operator.isEmpty()) {
      throw new WrongRequest("--operator: is missing; say who checks");
    }
    WrongRequest.requireWords("--operator", operator.get());
    return operator.get().strip();
  }

  private String supervisor(Optional<ShopFile> stated) throws WrongRequest {
    if (supervisor.isEmpty()) {
      throw new WrongRequest("--supervisor: is missing; say who answers for the bench");
    }
    String who = supervisor.get().strip();
    WrongRequest.requireWords("--supervisor", who);
    if (stated.filter(s -> !s.maySupervise(who)).isPresent()) {
      throw new WrongRequest("--supervisor: \"" + who + "\" is not on the shop's list");
    }
    return who;
  }

  private static String name(double milliamps) {
    return "loop at " + Numbers.plain(milliamps) + " mA";
  }

  private Map<String, Double> typed() throws WrongRequest {
    if (reading.read.size() != 3) {
      throw new WrongRequest(
          "--read: found "
              + reading.read.size()
              + " numbers, allowed are three, at 4, 12 and 20 mA: 4.001,12.000,19.998");
    }
    Map<String, Double> found = new LinkedHashMap<>();
    double[] wanted = {4.0, 12.0, 20.0};
    for (int i = 0; i < wanted.length; i++) {
      double value = reading.read.get(i);
      if (Math.abs(value - wanted[i]) > FURTHEST_MILLIAMPS) {
        throw new WrongRequest(
            "--read: found "
                + Numbers.plain(value)
                + " in place of "
                + Numbers.plain(wanted[i])
                + " mA; allowed is within 2 mA of it, in the order 4, 12, 20 mA");
      }
      found.put(name(wanted[i]), value);
    }
    return found;
  }

  private Map<String, Double> from(BenchFile file, Path record)
      throws WrongRequest, FileMistakes, RecordReader.NotARecord {
    JudgedRun run = Reports.judge(record);
    boolean same =
        run.bench().name().equals(file.name()) && run.simulated() == file.simulation().isPresent();
    if (!same || !run.record().flaws().isEmpty()) {
      throw new WrongRequest(
          record
              + (same
                  ? ": is damaged; take another run"
                  : ": is no run of this bench, but of "
                      + (run.simulated() ? "simulated " : "")
                      + run.bench().name()));
    }
    Map<String, Double> found = measure.isPresent() ? ofUnit(run) : ofLoop(run);
    if (found.isEmpty()) {
      throw new WrongRequest(
          record
              + (measure.isPresent()
                  ? ": has no value of " + measure.get()
                  : ": its preflight read no loop meter; state a reference unit's --measure"));
    }
    return found;
  }

  private static Map<String, Double> ofLoop(JudgedRun run) {
    Map<String, Double> found = new LinkedHashMap<>();
    run.record()
        .events(Event.Checked.class)
        .filter(check -> check.values().containsKey(CheckNames.FOUND_MILLIAMPS))
        .forEach(
            check ->
                found.put(
                    name(check.values().get(CheckNames.WANTED_MILLIAMPS)),
                    check.values().get(CheckNames.FOUND_MILLIAMPS)));
    return found;
  }

  private Map<String, Double> ofUnit(JudgedRun run) throws WrongRequest {
    MeasureKind kind =
        MeasureKind.ofKey(measure.orElseThrow().strip())
            .orElseThrow(
                () ->
                    new WrongRequest(
                        "--measure: found \""
                            + measure.get()
                            + "\", allowed is the key of a measure as in a unit type file"));
    Map<String, Double> found = new LinkedHashMap<>();
    for (Judgement judged : run.judgements()) {
      var m = judged.measure();
      if (m.kind() == kind && m.value().filter(Double::isFinite).isPresent()) {
        String place = m.place().id().isEmpty() ? "" : ", " + m.place().id();
        String reference =
            run.record().label(Label.SERIAL)
                + ": "
                + kind.title()
                + place
                + ", by "
                + m.truth().text()
                + ", "
                + kind.unit();
        found.putIfAbsent(reference, m.value().get());
      }
    }
    return found;
  }

  /** Empty if it could not be read; it was told why. */
  private Optional<Map<String, Double>> loop(GivenFiles.Given<BenchFile> given, UnitType unit)
      throws Exception {
    person();
    BenchFile file = given.value();
    Input in = Input.of(spec);
    if (!unattended) {
      in.requirePerson(file.simulation().isPresent());
    } else if (file.simulation().isEmpty()) {
      throw HandOptions.realBench(given.path());
    }
    // With JSON nothing else stands on standard output.
    Shown out = json ? Shown.err(spec) : Shown.out(spec);
    StopSwitch stop = new StopSwitch();
    BenchLinks.Wanted wanted = BenchLinks.Wanted.of(file, "a check of the bench");
    try (StopHook hook = StopHook.set(stop, out, Shown.err(spec));
        BenchLinks links = BenchLinks.of(wanted, Optional.empty(), Shown.err(spec)::println);
        HandWork work =
            unattended
                ? HandWork.unattended(in, out, stop)
                : HandWork.attended(in, out, stop, hook)) {
      BenchClock clock = Root.of(spec).clocks().apply(file);
      LoopReading loop = new LoopReading(work.bench(file, unit, links.opener(), clock));
      HandResult result = loop.read();
      work.tellEnd(result);
      if (!result.clean()) {
        return Optional.empty();
      }
      Map<String, Double> found = new LinkedHashMap<>();
      loop.reads().forEach(r -> found.put(name(r.wanted().milliamps()), r.found().milliamps()));
      return Optional.of(found);
    }
  }

  private void show(BenchFile file, List<Checked> judged) throws IOException {
    Shown out = Shown.out(spec);
    if (json) {
      out.print(Json.page(fields(file, judged)));
      out.flush();
      return;
    }
    boolean simulated = file.simulation().isPresent();
    out.println((simulated ? "SIMULATED bench " : "Bench ") + file.name());
    List<List<String>> rows = new ArrayList<>();
    for (Checked each : judged) {
      boolean known = !Double.isNaN(each.check().centre());
      rows.add(
          List.of(
              each.reference(),
              String.valueOf(each.count()),
              Numbers.minusSigns(Numbers.significant(each.newest(), 5)),
              known ? Numbers.minusSigns(Numbers.significant(each.check().centre(), 5)) : "–",
              known ? Numbers.significant(each.check().sigma(), 2) : "–",
              each.words()));
    }
    new TextTable(List.of("reference", ">readings", ">newest", ">baseline", ">σ", "it says"), rows)
        .print(out);
    if (rows.isEmpty()) {
      out.println("No check of this bench yet.");
    }
    if (judged.stream().anyMatch(Checked::stops)) {
      out.println(Wrapped.text(BenchChecks.STOPPED, TextTable.WIDTH, 0));
    }
    out.flush();
  }

  private static Map<String, Object> fields(BenchFile file, List<Checked> judged) {
    Map<String, Object> told = new LinkedHashMap<>();
    told.put("bench", file.name());
    told.put("simulated", file.simulation().isPresent());
    told.put("stop", judged.stream().anyMatch(Checked::stops));
    List<Map<String, Object>> references = new ArrayList<>();
    for (Checked each : judged) {
      Map<String, Object> fields = new LinkedHashMap<>();
      fields.put("reference", each.reference());
      fields.put("readings", each.count());
      fields.put("newest", each.newest());
      if (!Double.isNaN(each.check().centre())) {
        fields.put("centre", each.check().centre());
        fields.put("sigma", each.check().sigma());
      }
      fields.put("state", key(each.check().state()));
      fields.put("answered", each.answered());
      references.add(fields);
    }
    told.put("references", references);
    return told;
  }

  /** "too_few", "in_control", "warning", "stop" or "frozen". */
  private static String key(CheckState state) {
    return Stream.of(state.getClass().getSimpleName().split("(?=[A-Z])"))
        .map(word -> word.toLowerCase(Locale.ROOT))
        .reduce((a, b) -> a + "_" + b)
        .orElseThrow();
  }
}
