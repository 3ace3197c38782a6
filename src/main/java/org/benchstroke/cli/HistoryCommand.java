package org.benchstroke.cli;

import java.time.Instant;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.concurrent.Callable;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.benchstroke.app.ExitCode;
import org.benchstroke.app.WrongRequest;
import org.benchstroke.app.history.Days;
import org.benchstroke.archive.Archive;
import org.benchstroke.archive.ArchiveFault;
import org.benchstroke.archive.RunFilter;
import org.benchstroke.core.toml.FileMistakes;
import org.benchstroke.judge.Word;
import picocli.CommandLine.ArgGroup;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** Asks the archive. */
@Command(
    name = "history",
    description = {
      Commands.HISTORY,
      "A job is all runs of a unit for an order: its first whole run is as found, its last one as"
          + " left, and it passed first time if the first whole run did. Texts must be given"
          + " exactly. Days are by UTC, as in the records."
    },
    mixinStandardHelpOptions = true,
    sortOptions = false,
    footer = {
      "",
      "Marks of a run or a job: S simulated, I recorded elsewhere, - not a whole, valid run,",
      "                         ! its record is damaged, changed or wrongly amended"
    })
final class HistoryCommand implements Callable<Integer> {
  @Option(names = "--serial", paramLabel = "TEXT", description = "Serial number of the unit.")
  private Optional<String> serial = Optional.empty();

  @Option(names = "--order", paramLabel = "TEXT", description = "The customer's order.")
  private Optional<String> order = Optional.empty();

  @Option(names = "--type", paramLabel = "TEXT", description = "Name of the unit type.")
  private Optional<String> type = Optional.empty();

  @Option(names = "--since", paramLabel = "DAY", description = "Begun on this day or later.")
  private Optional<String> since = Optional.empty();

  @Option(names = "--until", paramLabel = "DAY", description = "Begun on this day or earlier.")
  private Optional<String> until = Optional.empty();

  @Option(
      names = "--verdict",
      paramLabel = "WORD",
      description =
          "passed, \"conditional pass\", \"conditional fail\", failed or \"no result\"; of a job, as"
              + " left.")
  private Optional<String> verdict = Optional.empty();

  @Option(names = "--operator", paramLabel = "NAME", description = "Who ran the test.")
  private Optional<String> operator = Optional.empty();

  @Option(names = "--bench", paramLabel = "TEXT", description = "Name of the bench.")
  private Optional<String> bench = Optional.empty();

  /** What is listed. */
  private static final class Listed {
    @Option(names = "--jobs", description = "Lists jobs.")
    private boolean jobs;

    @Option(
        names = "--yield",
        description = "Lists by unit type how many jobs passed at their first whole run.")
    private boolean yields;
  }

  @ArgGroup private Listed listed = new Listed();

  @Option(
      names = "--most",
      paramLabel = "N",
      defaultValue = "50",
      description = "How many lines at most, 1 to 1000000 (default: ${DEFAULT-VALUE}).")
  private int most;

  /** How it is printed. */
  private static final class Form {
    @Option(names = "--json", description = "Prints JSON.")
    private boolean json;

    @Option(names = "--csv", description = "Prints comma-separated values (RFC 4180).")
    private boolean csv;
  }

  @ArgGroup private Form form = new Form();

  @Mixin private ArchiveOption archive;

  @Mixin private RecordsOption records;

  @Spec private CommandSpec spec;

  @Override
  public Integer call() throws WrongRequest, FileMistakes, ArchiveFault {
    if (most < 1 || most > 1_000_000) {
      throw new WrongRequest("--most: found " + most + ", allowed is 1 to 1000000");
    }
    RunFilter filter = filter();
    HistoryLists lists = new HistoryLists(Shown.out(spec), most);
    HistoryLists.Form printed =
        form.json
            ? HistoryLists.Form.JSON
            : form.csv ? HistoryLists.Form.CSV : HistoryLists.Form.TABLE;
    try (Archive open = Archive.existing(archive.place(records.folder()))) {
      if (listed.yields) {
        lists.yields(open.yields(filter), printed);
      } else if (listed.jobs) {
        lists.jobs(open.jobs(filter, most + 1), printed);
      } else {
        lists.runs(open.runs(filter, most + 1), printed);
      }
    }
    Shown.out(spec).flush();
    return ExitCode.PASSED;
  }

  private RunFilter filter() throws WrongRequest {
    Optional<Instant> from = Days.from("--since", since);
    Optional<Instant> before = Days.before("--until", until);
    return new RunFilter(serial, order, type, word(), operator, bench, from, before);
  }

  private Optional<String> word() throws WrongRequest {
    if (verdict.isEmpty()) {
      return Optional.empty();
    }
    String said = verdict.get().strip().toLowerCase(Locale.ROOT);
    for (Word word : Word.values()) {
      if (List.of(word.text(), word.ofUnit()).contains(said)) {
        return Optional.of(word.text());
      }
    }
    throw new WrongRequest(
        "--verdict: found \""
            + verdict.get()
            + "\", allowed are "
            + Stream.of(Word.values()).map(Word::ofUnit).collect(Collectors.joining(", ")));
  }
}
