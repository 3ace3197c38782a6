package org.benchstroke.cli;

import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.Callable;
import org.benchstroke.app.Defaults;
import org.benchstroke.app.ExitCode;
import org.benchstroke.app.WrongRequest;
import org.benchstroke.bench.BenchFileReader;
import org.benchstroke.bench.BenchText;
import org.benchstroke.core.clock.SystemClock;
import org.benchstroke.core.toml.FileMistakes;
import org.benchstroke.core.toml.Mistake;
import org.benchstroke.core.toml.TomlDocument;
import org.benchstroke.papers.Json;
import org.benchstroke.procedure.CrossCheck;
import org.benchstroke.procedure.Procedure;
import org.benchstroke.tests.ProcedureReader;
import org.benchstroke.unit.UnitTypeReader;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** Reads files that a person wrote and lists every mistake. */
@Command(
    name = "check",
    description = {
      Commands.CHECK,
      "Each is shown with its file, line and key, what was found and what is allowed.",
      "A bench and a unit type, with or without a procedure, are also checked together."
    },
    mixinStandardHelpOptions = true)
final class CheckCommand implements Callable<Integer> {
  @Parameters(paramLabel = "FILE", arity = "1..*", description = "The files to check.")
  private List<Path> files;

  @Option(names = "--json", description = "Lists the mistakes as JSON.")
  private boolean json;

  @Spec private CommandSpec spec;

  @Override
  public Integer call() throws FileMistakes, WrongRequest {
    Shown out = Shown.out(spec);
    Defaults stated = ShopOption.found(spec);
    List<Mistake> mistakes = new ArrayList<>();
    Map<String, List<Path>> kinds = new HashMap<>();
    for (Path file : files) {
      try {
        FileKinds.Found found = FileKinds.read(file);
        kinds.computeIfAbsent(found.kind(), kind -> new ArrayList<>()).add(file);
        if (found.kind().equals(UnitTypeReader.KIND)) {
          requireProcedure(file, stated);
        }
        if (!json) {
          out.println(file + ": ok, " + article(found.kind()) + " " + found.kind() + " file");
          found.understood().forEach(line -> out.println("  " + line));
        }
      } catch (FileMistakes e) {
        mistakes.addAll(e.mistakes());
      }
    }
    together(kinds, out, mistakes);
    if (json) {
      out.println(Json.line(mistakes));
    } else {
      FileMistakes.lines(mistakes).forEach(out::println);
      if (!mistakes.isEmpty()) {
        out.println(mistakes.size() + (mistakes.size() == 1 ? " mistake" : " mistakes"));
      }
    }
    return mistakes.isEmpty() ? ExitCode.PASSED : ExitCode.WRONG_REQUEST;
  }

  private static String article(String kind) {
    return kind.startsWith("instrument") ? "an" : "a";
  }

  /** The procedure that a unit type names must be there. */
  private static void requireProcedure(Path file, Defaults stated) throws FileMistakes {
    TomlDocument document = TomlDocument.read(file);
    try {
      Optional<Path> named = stated.ofUnitType(file).map(value -> Path.of(value.text()));
      if (named.isPresent() && !Files.isRegularFile(named.get())) {
        document.root().mistake("procedure", "there is no file " + named.get());
      }
    } catch (WrongRequest e) {
      document.root().mistake("procedure", e.getMessage().replaceFirst("^.*procedure: ", ""));
    }
    document.finish();
  }

  /** One bench and one unit type, with a procedure or without, are also checked together. */
  private void together(Map<String, List<Path>> kinds, Shown out, List<Mistake> mistakes) {
    List<Path> benches = kinds.getOrDefault(BenchFileReader.KIND, List.of());
    List<Path> units = kinds.getOrDefault(UnitTypeReader.KIND, List.of());
    List<Path> procedures = kinds.getOrDefault(ProcedureReader.KIND, List.of());
    if (benches.size() != 1 || units.size() != 1 || procedures.size() > 1) {
      return;
    }
    try {
      TomlDocument document = BenchText.of(benches.get(0)).document();
      Optional<Procedure> procedure =
          procedures.isEmpty()
              ? Optional.empty()
              : Optional.of(ProcedureReader.read(procedures.get(0)));
      LocalDate today = LocalDate.ofInstant(SystemClock.realTime().utc(), ZoneOffset.UTC);
      List<String> notes =
          CrossCheck.of(
              document,
              BenchFileReader.read(benches.get(0)),
              UnitTypeReader.read(units.get(0)),
              procedure,
              today);
      if (!json) {
        out.println("together: ok");
        notes.forEach(note -> out.println("  " + note));
      }
    } catch (FileMistakes e) {
      mistakes.addAll(e.mistakes());
    }
  }
}
