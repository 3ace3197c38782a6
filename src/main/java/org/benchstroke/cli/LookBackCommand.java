package org.benchstroke.cli;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.Callable;
import org.benchstroke.app.ExitCode;
import org.benchstroke.app.SuspectInstrument;
import org.benchstroke.app.SuspectInstrument.Again;
import org.benchstroke.app.WrongRequest;
import org.benchstroke.app.history.LookedBack;
import org.benchstroke.app.history.LookedBack.Looked;
import org.benchstroke.app.history.LookedBack.Question;
import org.benchstroke.app.history.Naming;
import org.benchstroke.archive.Archive;
import org.benchstroke.archive.ArchiveFault;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.core.statistics.LookBack.Fate;
import org.benchstroke.core.toml.FileMistakes;
import org.benchstroke.judge.Judgement;
import org.benchstroke.judge.Word;
import org.benchstroke.papers.Json;
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
  @Option(
      names = "--instrument",
      paramLabel = "SERIAL",
      description = "Serial number of the instrument; without it every one of --bench is suspect.")
  private Optional<String> instrument = Optional.empty();

  @Option(names = "--bench", paramLabel = "TEXT", description = "Only runs of this bench.")
  private Optional<String> bench = Optional.empty();

  @Option(
      names = "--since",
      paramLabel = "DAY",
      description =
          "The day of the last good check (default with --bench: that of the bench's own checks in"
              + " the archive).")
  private Optional<String> given = Optional.empty();

  /** The same, once it is known. */
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

  @Override
  public Integer call() throws FileMistakes, WrongRequest, ArchiveFault {
    SuspectInstrument suspect = LookedBack.suspect(instrument, bench, error, Naming.OPTIONS);
    LookedBack back;
    try (Archive open = Archive.existing(archive.place(records.folder()))) {
      since = given.isPresent() ? given.get() : LookedBack.lastGood(open, bench, Naming.OPTIONS);
      Question question = new Question(instrument, bench, since, until, error);
      back = LookedBack.of(open, question, suspect, Naming.OPTIONS);
    }
    Shown out = Shown.out(spec);
    if (json) {
      out.print(Json.page(fields(suspect, back.runs())));
    } else {
      tell(out, back);
    }
    out.flush();
    return back.kept() ? ExitCode.PASSED : ExitCode.NOT_PASSED;
  }

  private void tell(Shown out, LookedBack back) {
    SuspectInstrument suspect = back.suspect();
    List<Looked> looked = back.runs();
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
    summary(out, back);
  }

  private static List<String> row(Looked each) {
    return List.of(
        each.dated() ? each.run().facts().begun().toString().substring(0, 10) : "not dated",
        each.run().labels().serial(),
        each.run().labels().order(),
        each.run().result().verdict(),
        each.word(),
        each.moved() + " of " + each.measures().size());
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
        LookedBack.word(again.found().fate()));
  }

  private static void summary(Shown out, LookedBack back) {
    List<String> words =
        back.jobs().entrySet().stream().map(e -> e.getValue() + " " + e.getKey()).toList();
    out.println("Jobs: " + String.join(", ", words) + ".");
    back.touchesNothing().ifPresent(w -> out.println(Wrapped.text(w, TextTable.WIDTH, 0)));
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
    fields.put("fate", LookedBack.word(again.found().fate()));
    return fields;
  }

  private static String text(Word word) {
    return word.text();
  }
}
