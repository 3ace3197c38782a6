package org.benchstroke.cli;

import java.nio.file.Path;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.Callable;
import org.benchstroke.app.BenchChecks;
import org.benchstroke.app.BenchChecks.Checked;
import org.benchstroke.app.BenchChecks.Occasion;
import org.benchstroke.app.ExitCode;
import org.benchstroke.app.GivenFiles;
import org.benchstroke.app.WrongRequest;
import org.benchstroke.app.history.Days;
import org.benchstroke.app.history.DueDates;
import org.benchstroke.app.history.DueDates.Line;
import org.benchstroke.archive.Archive;
import org.benchstroke.archive.ArchiveFault;
import org.benchstroke.bench.BenchFile;
import org.benchstroke.core.clock.SystemClock;
import org.benchstroke.core.toml.FileMistakes;
import org.benchstroke.papers.Json;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** Whose calibration falls due. */
@Command(
    name = "due",
    description = {
      Commands.DUE,
      "From the archive it also tells when each bench was last checked by its own reference, and what"
          + " that said.",
      "Of the bench files that are given; without one, of each bench of the archive by its newest"
          + " run. Simulated benches don't count there."
    },
    mixinStandardHelpOptions = true,
    sortOptions = false,
    footer = {"", "Example:", "  benchstroke due --days 60 benches/*.toml"})
final class DueCommand implements Callable<Integer> {
  private static final int MOST_DAYS = 36_500;

  @Parameters(paramLabel = "BENCH", arity = "0..*", description = "Bench files.")
  private List<Path> files = List.of();

  @Option(
      names = "--days",
      paramLabel = "N",
      defaultValue = "30",
      description = "Due in the next so many days, 0 to 36500 (default: ${DEFAULT-VALUE}).")
  private int days;

  @Option(
      names = "--on",
      paramLabel = "DAY",
      description = "Counted from this day instead of today.")
  private Optional<String> on = Optional.empty();

  @Mixin private ArchiveOption archive;

  @Mixin private RecordsOption records;

  @Option(names = "--json", description = "Prints JSON.")
  private boolean json;

  @Spec private CommandSpec spec;

  /** What the benches' own checks say, by the archive. */
  private final List<BenchChecked> checked = new ArrayList<>();

  /** A bench with its own checks. */
  private record BenchChecked(String bench, Instant last, List<Checked> references) {
    private String words() {
      return references.stream()
          .filter(c -> !c.holds())
          .findFirst()
          .or(() -> references.stream().findFirst())
          .map(c -> c.reference() + ": " + c.words())
          .orElse("no reading");
    }
  }

  @Override
  public Integer call() throws WrongRequest, ArchiveFault, FileMistakes {
    if (days < 0 || days > MOST_DAYS) {
      throw new WrongRequest("--days: found " + days + ", allowed is 0 to " + MOST_DAYS);
    }
    LocalDate today =
        on.isPresent()
            ? Days.day("--on", on.get())
            : LocalDate.ofInstant(SystemClock.realTime().utc(), ZoneOffset.UTC);
    List<Line> all = files.isEmpty() ? archived() : given();
    List<Line> soon = DueDates.soon(all, today, days);
    Shown out = Shown.out(spec);
    if (json) {
      List<Map<String, Object>> told = new ArrayList<>();
      soon.forEach(line -> told.add(fields(line, today)));
      checked.forEach(each -> told.add(fields(each, today)));
      out.print(Json.page(told));
    } else {
      tell(out, all, soon, today);
      checks(out, today);
    }
    out.flush();
    return ExitCode.PASSED;
  }

  private List<Line> given() throws FileMistakes {
    GivenFiles given = new GivenFiles();
    List<GivenFiles.Given<BenchFile>> benches =
        files.stream().map(file -> given.bench(file)).toList();
    given.finish();
    return benches.stream().flatMap(bench -> DueDates.of(bench.value()).stream()).toList();
  }

  private List<Line> archived() throws FileMistakes, WrongRequest, ArchiveFault {
    try (Archive open = Archive.existing(archive.place(records.folder()))) {
      for (String bench : open.benchesChecked(false)) {
        List<Occasion> occasions = BenchChecks.of(open.checksOf(bench, false));
        occasions.stream()
            .filter(o -> !o.readings().isEmpty())
            .map(Occasion::at)
            .max(Comparator.naturalOrder())
            .ifPresent(
                last -> checked.add(new BenchChecked(bench, last, BenchChecks.judged(occasions))));
      }
      return DueDates.of(open);
    }
  }

  private void tell(Shown out, List<Line> all, List<Line> soon, LocalDate today) {
    if (soon.isEmpty()) {
      out.println("None of " + all.size() + " instruments is due by " + today.plusDays(days) + ".");
      return;
    }
    List<List<String>> rows = new ArrayList<>();
    for (Line line : soon) {
      rows.add(
          List.of(
              line.due().map(LocalDate::toString).orElse("not known"),
              line.days(today).map(DueCommand::left).orElse(""),
              line.bench(),
              line.name(),
              line.serial(),
              line.certificate()));
    }
    new TextTable(List.of("due", "in", "bench", "instrument", "serial", "certificate"), rows)
        .print(out);
  }

  private void checks(Shown out, LocalDate today) {
    if (checked.isEmpty()) {
      return;
    }
    List<List<String>> rows = new ArrayList<>();
    for (BenchChecked each : checked) {
      rows.add(
          List.of(
              day(each).toString(),
              ChronoUnit.DAYS.between(day(each), today) + " d",
              each.bench(),
              each.words()));
    }
    out.println();
    new TextTable(List.of("own check", ">ago", "bench", "it says"), rows).print(out);
  }

  private static LocalDate day(BenchChecked checked) {
    return LocalDate.ofInstant(checked.last(), ZoneOffset.UTC);
  }

  private static Map<String, Object> fields(BenchChecked checked, LocalDate today) {
    Map<String, Object> fields = new LinkedHashMap<>();
    fields.put("bench", checked.bench());
    fields.put("last_check", day(checked).toString());
    fields.put("days_ago", ChronoUnit.DAYS.between(day(checked), today));
    fields.put("stop", checked.references().stream().anyMatch(Checked::stops));
    fields.put("says", checked.words());
    return fields;
  }

  private static String left(long days) {
    return days < 0 ? "OVERDUE" : days + " d";
  }

  private static Map<String, Object> fields(Line line, LocalDate today) {
    Map<String, Object> fields = new LinkedHashMap<>();
    fields.put("bench", line.bench());
    fields.put("instrument", line.name());
    fields.put("roles", line.roles());
    fields.put("model", line.identity());
    fields.put("serial", line.serial());
    fields.put("certificate", line.certificate());
    line.due().ifPresent(due -> fields.put("due", due.toString()));
    line.days(today).ifPresent(days -> fields.put("days", days));
    line.due().ifPresent(due -> fields.put("overdue", line.overdue(today)));
    return fields;
  }
}
