package org.benchstroke.cli;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.benchstroke.app.Archiving;
import org.benchstroke.app.ExitCode;
import org.benchstroke.app.WrongRequest;
import org.benchstroke.archive.Archive;
import org.benchstroke.archive.ArchiveFault;
import org.benchstroke.archive.ArchivePlace;
import org.benchstroke.archive.ArchiveState;
import org.benchstroke.archive.FolderOfRecords;
import org.benchstroke.archive.Rebuild;
import org.benchstroke.archive.Taken;
import org.benchstroke.core.clock.BenchClock;
import org.benchstroke.core.clock.SystemClock;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.core.toml.FileMistakes;
import org.benchstroke.papers.Json;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** The archive: made, looked at, added to. */
@Command(
    name = "archive",
    description = {
      Commands.ARCHIVE,
      "The records stay the truth: the archive can be made again from them at any time. A run adds"
          + " itself when it has ended."
    },
    synopsisSubcommandLabel = "COMMAND",
    mixinStandardHelpOptions = true)
final class ArchiveCommand implements Runnable {
  private static final int TOLD_EVERY = 500;

  @Spec private CommandSpec spec;

  @Override
  public void run() {
    spec.commandLine().usage(spec.commandLine().getOut());
  }

  /**
   * For a program.
   *
   * @param added how many records were added or brought up to date
   */
  private record Added(int format, String archive, int added, List<Map<String, Object>> refused) {}

  private static String count(long number, String what) {
    return number + " " + what + (number == 1 ? "" : "s");
  }

  @Command(
      name = "rebuild",
      description = {
        "Makes the archive anew from folders of records.",
        "Says how many records are sound, and which are damaged, not sealed or changed. The"
            + " archive that was there stays until the new one is whole."
      },
      mixinStandardHelpOptions = true)
  int rebuild(
      @Parameters(
              paramLabel = "FOLDER",
              arity = "0..*",
              description = "Folders of records (default: records).")
          List<Path> folders,
      @Mixin ArchiveOption archive,
      @Option(
              names = "--judge",
              description =
                  "Judges every record; else the judgement beside it is taken where it is sealed by"
                      + " the key of the record.")
          boolean judge,
      @Option(
              names = "--force",
              description =
                  "Leaves out runs of the archive whose records are in no folder given; on a server"
                      + " only with --bench.")
          boolean force,
      @Option(
              names = "--bench",
              paramLabel = "NAME",
              description = "Likewise, but only runs of this bench; repeatable.")
          List<String> benches,
      @Option(names = "--json", description = "Prints JSON.") boolean json)
      throws ArchiveFault, FileMistakes, WrongRequest {
    List<Path> given = folders == null ? List.of(Path.of("records")) : folders;
    ArchivePlace place = archive.place(given.get(0));
    Shown out = Shown.out(spec);
    boolean live = !json && Terminals.isThere();
    BenchClock clock = SystemClock.realTime();
    long began = clock.nanos();
    Shown progress = json ? Shown.nothing() : out;
    Rebuild.Result result =
        new Rebuild(place, judge, letGo(force, benches), (d, all) -> tell(progress, live, d, all))
            .from(given);
    double seconds = (clock.nanos() - began) / 1e9;
    int checks = result.replaced() ? checks(place, given) : 0;
    if (live) {
      out.control(Shown.Control.CLEAR_LINE);
    }
    if (json) {
      out.println(Json.line(told(result, place, seconds, checks)));
    } else {
      tell(out, result, place, seconds);
      if (checks > 0) {
        out.println("Checks:  " + count(checks, "line") + " of benches' own checks");
      }
    }
    out.flush();
    return result.replaced() ? ExitCode.PASSED : ExitCode.WRONG_REQUEST;
  }

  private int checks(ArchivePlace place, List<Path> folders) throws ArchiveFault {
    List<String> told = new ArrayList<>();
    int added = 0;
    try (Archive archive = Archive.existing(place)) {
      for (Path folder : folders) {
        added += Archiving.checks(archive, folder, told);
      }
    }
    told.forEach(Shown.err(spec)::println);
    return added;
  }

  private static Rebuild.LetGo letGo(boolean force, List<String> benches) {
    return benches == null
        ? new Rebuild.LetGo(force, Set.of())
        : new Rebuild.LetGo(false, Set.copyOf(benches));
  }

  private static Map<String, Object> told(
      Rebuild.Result result, ArchivePlace place, double seconds, int checks) {
    Map<String, Object> told = new LinkedHashMap<>();
    told.put("format", 1);
    told.put("archive", place.toString());
    told.put("replaced", result.replaced());
    told.put("records", result.files());
    told.put("runs", result.runs());
    told.put("checks", checks);
    told.put("seconds", seconds);
    Map<String, Integer> counts = new LinkedHashMap<>();
    for (Taken.State state : Taken.State.values()) {
      counts.put(word(state), result.counts().getOrDefault(state, 0));
    }
    told.put("counts", counts);
    told.put("flawed", result.flawed().stream().map(ArchiveCommand::told).toList());
    told.put("in_no_folder", result.strangers());
    return told;
  }

  private static Map<String, Object> told(Taken taken) {
    Map<String, Object> told = new LinkedHashMap<>();
    told.put("record", taken.file().toString());
    told.put("state", word(taken.state()));
    told.put("detail", taken.detail());
    return told;
  }

  private static String word(Taken.State state) {
    return state.name().toLowerCase(Locale.ROOT);
  }

  private static void tell(Shown out, boolean live, int done, int all) {
    if (live && (done % 10 == 0 || done == all)) {
      out.control(Shown.Control.CLEAR_LINE);
      out.print("  " + done + " of " + all + " records");
      out.flush();
    } else if (!live && done % TOLD_EVERY == 0) {
      out.println("  " + done + " of " + all + " records");
      out.flush();
    }
  }

  private void tell(Shown out, Rebuild.Result result, ArchivePlace place, double seconds) {
    for (Taken each : result.flawed()) {
      String detail = each.detail().isEmpty() ? "" : ": " + each.detail();
      out.println(each.file() + ": " + each.state().text() + detail);
    }
    out.println(
        "Read:    "
            + count(result.files(), "record")
            + " in "
            + Numbers.fixed(seconds, 1)
            + " s"
            + (result.files() < TOLD_EVERY
                ? ""
                : ", " + Numbers.fixed(result.files() / seconds, 0) + " a second"));
    for (Taken.State state : Taken.State.values()) {
      int count = result.counts().getOrDefault(state, 0);
      if (count > 0 || state == Taken.State.SOUND) {
        out.println("  " + count + " " + state.text());
      }
    }
    strangers(result, place);
    if (result.replaced()) {
      out.println("Archive: " + place + ", " + count(result.runs(), "run") + " from these records");
    }
  }

  private void strangers(Rebuild.Result result, ArchivePlace place) {
    result
        .strangers()
        .forEach(
            (bench, runs) ->
                Shown.err(spec)
                    .println(
                        count(runs, "run")
                            + " of bench \""
                            + bench
                            + "\": the record is in none of these folders"));
    if (result.gone() > 0) {
      Shown.err(spec).println(count(result.gone(), "run") + " of them left out");
    }
    if (!result.replaced()) {
      Shown.err(spec)
          .println(
              "The archive "
                  + place
                  + " stays as it was: name the folders of those records too, or add --force to"
                  + " leave them out");
    }
  }

  @Command(
      name = "status",
      description = "Says what the archive holds, and what it lacks of a folder.",
      mixinStandardHelpOptions = true)
  int status(
      @Mixin ArchiveOption archive,
      @Mixin RecordsOption records,
      @Option(names = "--json", description = "Prints it as JSON.") boolean json)
      throws ArchiveFault, FileMistakes, WrongRequest {
    try (Archive open = Archive.existing(archive.place(records.folder()))) {
      ArchiveState state = open.state();
      boolean there = Files.isDirectory(records.folder());
      int missing = there ? missing(open, records.folder()).size() : 0;
      if (json) {
        Shown.out(spec).print(Json.page(json(open.place(), state, missing)));
      } else {
        tell(open.place(), state, records.folder(), there, missing);
      }
      Shown.out(spec).flush();
    }
    return ExitCode.PASSED;
  }

  private static Map<String, Object> json(ArchivePlace place, ArchiveState state, int missing) {
    Map<String, Object> json = new LinkedHashMap<>();
    json.put("archive", place.toString());
    json.put("version", state.version());
    json.put("runs", state.runs());
    json.put("flawed", state.flawed());
    state.first().ifPresent(at -> json.put("first_utc", at.toString()));
    state.last().ifPresent(at -> json.put("last_utc", at.toString()));
    json.put("missing", missing);
    json.put("keys", state.keys());
    return json;
  }

  private void tell(
      ArchivePlace place, ArchiveState state, Path folder, boolean there, int missing) {
    Shown out = Shown.out(spec);
    out.println("Archive: " + place + ", tables of version " + state.version());
    String span =
        state.first().isEmpty()
            ? ""
            : ", from "
                + state.first().get().toString().substring(0, 10)
                + " to "
                + state.last().orElseThrow().toString().substring(0, 10)
                + " (UTC)";
    out.println("Runs:    " + state.runs() + span);
    if (state.flawed() > 0) {
      out.println("         " + state.flawed() + " of them of records that are not sound: verify");
    }
    state.keys().forEach(key -> out.println("Key:     " + key.fingerprint() + " " + key.bench()));
    if (!there) {
      out.println("Records: there is no folder " + folder);
    } else if (missing == 0) {
      out.println("Records: all of " + folder + " are in the archive");
    } else {
      out.println(
          "Records: it lacks "
              + missing
              + " of "
              + folder
              + ", or they have changed: archive catch-up adds them");
    }
  }

  private static List<Path> missing(Archive archive, Path folder) throws ArchiveFault {
    return FolderOfRecords.of(folder).missing(archive, Integer.MAX_VALUE, true).stream()
        .filter(each -> !Archiving.isStillWritten(each))
        .toList();
  }

  @Command(
      name = "add",
      description = "Adds records; one that is there already is brought up to date.",
      mixinStandardHelpOptions = true)
  int add(
      @Parameters(paramLabel = "RECORD", arity = "1..*", description = "Records, .jsonl files.")
          List<Path> files,
      @Mixin ArchiveOption archive,
      @Option(names = "--json", description = "Prints JSON.") boolean json)
      throws ArchiveFault, FileMistakes, WrongRequest {
    Path folder = Optional.ofNullable(files.get(0).getParent()).orElse(Path.of(""));
    try (Archive open = Archive.open(archive.place(folder))) {
      return take(open, files, json);
    }
  }

  @Command(
      name = "catch-up",
      description = "Adds what the archive lacks of a folder, by names and sizes.",
      mixinStandardHelpOptions = true)
  int catchUp(
      @Mixin ArchiveOption archive,
      @Mixin RecordsOption records,
      @Option(names = "--json", description = "Prints JSON.") boolean json)
      throws ArchiveFault, FileMistakes, WrongRequest {
    FolderOfRecords.of(records.folder());
    try (Archive open = Archive.open(archive.place(records.folder()))) {
      List<String> told = new ArrayList<>();
      Archiving.checks(open, records.folder(), told);
      told.forEach(Shown.err(spec)::println);
      return take(open, missing(open, records.folder()), json);
    }
  }

  private int take(Archive archive, List<Path> files, boolean json) throws ArchiveFault {
    List<String> told = new ArrayList<>();
    List<Map<String, Object>> refused = new ArrayList<>();
    int added = 0;
    int code = ExitCode.PASSED;
    for (Path file : files) {
      Taken taken = Taken.of(file, false);
      if (Archiving.add(archive, taken, told)) {
        added++;
      } else {
        told.add(file + ": " + taken.state().text() + ": " + taken.detail());
        refused.add(told(taken));
        code = ExitCode.WRONG_REQUEST;
      }
    }
    told.forEach(Shown.err(spec)::println);
    String where = archive.place().toString();
    Shown.out(spec)
        .println(
            json
                ? Json.line(new Added(1, where, added, refused))
                : "Archive: "
                    + where
                    + ", "
                    + count(added, "record")
                    + " added or brought up to date");
    Shown.out(spec).flush();
    return code;
  }
}
