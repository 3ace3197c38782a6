package org.benchstroke.cli;

import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.Callable;
import org.benchstroke.app.ExitCode;
import org.benchstroke.app.Reports;
import org.benchstroke.app.SuspectInstrument;
import org.benchstroke.app.SuspectInstrument.Again;
import org.benchstroke.app.WrongRequest;
import org.benchstroke.archive.Archive;
import org.benchstroke.archive.ArchiveFault;
import org.benchstroke.archive.ArchivedRun.Heading;
import org.benchstroke.archive.RunFilter;
import org.benchstroke.archive.ShopHistory;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.core.statistics.LookBack.Fate;
import org.benchstroke.core.toml.FileMistakes;
import org.benchstroke.judge.JudgedRun;
import org.benchstroke.judge.Judgement;
import org.benchstroke.judge.Word;
import org.benchstroke.papers.Json;
import org.benchstroke.record.RecordDigest;
import org.benchstroke.record.RecordReader;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** What a found error does to the past. */
@Command(
    name = "look-back",
    description = {
      Commands.LOOK_BACK,
      "Every real run with it since the last good check, each measure with the whole error taken"
          + " off, put on, and with the part of it that suits best. The records themselves are judged"
          + " again; none is changed."
    },
    mixinStandardHelpOptions = true,
    sortOptions = false,
    footer = {
      "",
      "Exit codes: 0 every verdict is kept; 1 one is changed, undecided or could not be judged again;",
      "            2 the request was wrong.",
      "",
      "Example:",
      "  benchstroke look-back --instrument S-0815 --since 2026-03-01 --error 0.02mA"
    })
final class LookBackCommand implements Callable<Integer> {
  /** What was recorded elsewhere without a date stands at the beginning of 1970. */
  private static final Instant DATED = Instant.parse("1970-01-02T00:00:00Z");

  @Option(
      names = "--instrument",
      paramLabel = "SERIAL",
      description = "Serial number of the instrument; without it every one of --bench is suspect.")
  private Optional<String> instrument = Optional.empty();

  @Option(names = "--bench", paramLabel = "TEXT", description = "Only runs of this bench.")
  private Optional<String> bench = Optional.empty();

  @Option(
      names = "--since",
      required = true,
      paramLabel = "DAY",
      description = "The day of the last good check.")
  private String since = "";

  @Option(names = "--until", paramLabel = "DAY", description = "The last day on which it was used.")
  private Optional<String> until = Optional.empty();

  @Option(
      names = "--error",
      required = true,
      paramLabel = "X",
      description =
          "What was found, with its unit: 0.02mA, 0.1%% (of travel), 0.5deg, 0.2V, 0.05s.")
  private String error = "";

  @Mixin private ArchiveOption archive;

  @Mixin private RecordsOption records;

  @Option(names = "--all", description = "Lists measures whose word is kept, too.")
  private boolean all;

  @Option(names = "--json", description = "Prints JSON.")
  private boolean json;

  @Spec private CommandSpec spec;

  /**
   * A run that was looked at again.
   *
   * @param problem why it could not be; empty if it was
   */
  private record Looked(Heading run, Optional<String> problem, List<Again> measures) {
    private Optional<Fate> fate() {
      return problem.isPresent() ? Optional.empty() : Optional.of(SuspectInstrument.fate(measures));
    }

    private String word() {
      return fate().map(LookBackCommand::word).orElse("not judged");
    }

    /** What could not be judged again wants most to be looked at. */
    private int rank() {
      return fate().map(SuspectInstrument::rank).orElse(Integer.MAX_VALUE);
    }

    private List<String> job() {
      return List.of(run.labels().order(), run.labels().serial());
    }
  }

  @Override
  public Integer call() throws FileMistakes, WrongRequest, ArchiveFault {
    if (instrument.isEmpty() && bench.isEmpty()) {
      throw new WrongRequest("look-back: whose error is it? Add --instrument or --bench");
    }
    SuspectInstrument suspect = SuspectInstrument.of(instrument, "--error", error);
    List<Looked> looked = new ArrayList<>();
    for (Heading run : runs()) {
      looked.add(look(run, suspect));
    }
    Shown out = Shown.out(spec);
    if (json) {
      out.print(Json.page(fields(suspect, looked)));
    } else {
      tell(out, suspect, looked);
    }
    out.flush();
    boolean kept = looked.stream().allMatch(l -> l.rank() <= SuspectInstrument.rank(Fate.KEPT));
    return kept ? ExitCode.PASSED : ExitCode.NOT_PASSED;
  }

  /** A simulated run was measured by no instrument; what has no date may have been since then. */
  private List<Heading> runs() throws FileMistakes, WrongRequest, ArchiveFault {
    Optional<Instant> from = Days.from("--since", Optional.of(since));
    Optional<Instant> before = Days.before("--until", until);
    try (Archive open = Archive.existing(archive.place(records.folder()))) {
      List<Heading> found = new ArrayList<>();
      for (Heading run : runs(open, Optional.empty(), Optional.of(DATED))) {
        if (run.facts().imported()) {
          found.add(run);
        }
      }
      found.addAll(runs(open, from, before));
      if (found.isEmpty()) {
        throw new WrongRequest(
            "the archive "
                + open.place()
                + " has no real run with it since "
                + since
                + "; check the serial number, the name of the bench and the day");
      }
      return found;
    }
  }

  private List<Heading> runs(Archive open, Optional<Instant> from, Optional<Instant> before)
      throws ArchiveFault {
    Optional<String> any = Optional.empty();
    RunFilter filter = new RunFilter(any, any, any, any, any, bench, from, before);
    ShopHistory history = new ShopHistory(open, filter, false);
    return instrument.isPresent() ? history.runsWith(instrument.get()) : history.runs();
  }

  private static Looked look(Heading run, SuspectInstrument suspect) {
    Path file = Path.of(run.file().folder()).resolve(run.file().name());
    if (!Files.exists(file)) {
      return new Looked(run, Optional.of("its record is not in " + run.file().folder()), List.of());
    }
    try {
      JudgedRun judged = Reports.judge(file);
      Optional<String> sha256 = judged.record().digest().map(RecordDigest::sha256);
      if (judged.simulated()) {
        return new Looked(run, Optional.of("its record is of a simulated unit"), List.of());
      }
      return sha256.equals(Optional.of(run.file().sha256()))
          ? new Looked(run, Optional.empty(), suspect.again(judged))
          : new Looked(run, Optional.of("its bytes have changed since it was archived"), List.of());
    } catch (RecordReader.NotARecord | FileMistakes e) {
      String line = e.getMessage().lines().findFirst().orElse("");
      return new Looked(run, Optional.of("its record can't be judged: " + line), List.of());
    }
  }

  private static String word(Fate fate) {
    return fate.name().toLowerCase(Locale.ROOT).replace('_', ' ');
  }

  private void tell(Shown out, SuspectInstrument suspect, List<Looked> looked) {
    out.println(
        "Error of "
            + instrument.map(i -> "instrument " + i).orElse("bench " + bench.orElse(""))
            + ": "
            + Numbers.plain(suspect.size())
            + " "
            + suspect.unit().text()
            + "; "
            + looked.size()
            + " real runs since "
            + since);
    out.println();
    List<List<String>> rows = new ArrayList<>();
    looked.forEach(each -> rows.add(row(each)));
    new TextTable(
            List.of("begun (UTC)", "serial", "order", "verdict was", "verdicts", ">measures"), rows)
        .print(out);
    measures(out, looked);
    looked.forEach(
        each ->
            each.problem().ifPresent(why -> out.println(each.run().file().name() + ": " + why)));
    out.println();
    summary(out, looked);
  }

  private static List<String> row(Looked each) {
    long moved = each.measures().stream().filter(a -> a.found().fate() != Fate.KEPT).count();
    return List.of(
        each.run().facts().begun().isBefore(DATED)
            ? "not dated"
            : each.run().facts().begun().toString().substring(0, 10),
        each.run().labels().serial(),
        each.run().labels().order(),
        each.run().result().verdict(),
        each.word(),
        moved + " of " + each.measures().size());
  }

  private void measures(Shown out, List<Looked> looked) {
    List<List<String>> rows = new ArrayList<>();
    for (Looked each : looked) {
      for (Again again : each.measures()) {
        if (all || again.found().fate() != Fate.KEPT) {
          rows.add(row(each, again));
        }
      }
    }
    if (!rows.isEmpty()) {
      out.println();
      new TextTable(
              List.of("serial", "measure", ">value", "it was", "lower", "higher", "so it is"), rows)
          .print(out);
    }
  }

  private static List<String> row(Looked each, Again again) {
    Judgement judged = again.judged();
    return List.of(
        each.run().labels().serial(),
        judged.measure().kind().title() + judged.measure().place().behind(),
        Numbers.minusSigns(Numbers.significant(judged.measure().value().orElseThrow(), 3)),
        again.found().before().text(),
        again.found().lower().text(),
        again.found().higher().text(),
        word(again.found().fate()));
  }

  private static void summary(Shown out, List<Looked> looked) {
    Map<List<String>, Looked> jobs = new LinkedHashMap<>();
    Comparator<Looked> byRank = Comparator.comparingInt(Looked::rank);
    looked.forEach(
        each -> jobs.merge(each.job(), each, (a, b) -> byRank.compare(a, b) < 0 ? b : a));
    Map<String, Long> counts = new LinkedHashMap<>();
    jobs.values().forEach(worst -> counts.merge(worst.word(), 1L, Long::sum));
    List<String> words =
        counts.entrySet().stream().map(e -> e.getValue() + " " + e.getKey()).toList();
    out.println("Jobs: " + String.join(", ", words) + ".");
    if (looked.stream().allMatch(each -> each.measures().isEmpty())) {
      out.println(
          Wrapped.text(
              "No measure that was judged is known by it in this unit: is the error stated in the"
                  + " unit of what it measures?",
              TextTable.WIDTH,
              0));
    }
  }

  private Map<String, Object> fields(SuspectInstrument suspect, List<Looked> looked) {
    Map<String, Object> told = new LinkedHashMap<>();
    instrument.ifPresent(serial -> told.put("instrument", serial));
    bench.ifPresent(name -> told.put("bench", name));
    told.put("since", since);
    told.put("error", suspect.size());
    told.put("unit", suspect.unit().text());
    told.put("runs", looked.stream().map(LookBackCommand::fields).toList());
    return told;
  }

  private static Map<String, Object> fields(Looked each) {
    Map<String, Object> fields = new LinkedHashMap<>();
    fields.put("begun_utc", each.run().facts().begun().toString());
    fields.put("serial", each.run().labels().serial());
    fields.put("order", each.run().labels().order());
    fields.put("record", each.run().file().name());
    fields.put("verdict", each.run().result().verdict());
    fields.put("fate", each.word().replace(' ', '_'));
    each.problem().ifPresent(why -> fields.put("problem", why));
    fields.put("measures", each.measures().stream().map(LookBackCommand::fields).toList());
    return fields;
  }

  private static Map<String, Object> fields(Again again) {
    Map<String, Object> fields = new LinkedHashMap<>();
    fields.put("measure", again.judged().measure().kind().key());
    fields.put("place", again.judged().measure().place().id());
    fields.put("truth", again.judged().measure().truth().text());
    fields.put("value", again.judged().measure().value().orElseThrow());
    fields.put("shift", again.shift());
    fields.put("before", text(again.found().before()));
    fields.put("lower", text(again.found().lower()));
    fields.put("higher", text(again.found().higher()));
    fields.put("kindest", text(again.found().kindest()));
    fields.put("fate", word(again.found().fate()));
    return fields;
  }

  private static String text(Word word) {
    return word.text();
  }
}
