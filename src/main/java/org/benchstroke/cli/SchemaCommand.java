package org.benchstroke.cli;

import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Callable;
import java.util.stream.Collectors;
import org.benchstroke.app.ExitCode;
import org.benchstroke.app.OutputFiles;
import org.benchstroke.app.SchemaFile;
import org.benchstroke.app.WrongRequest;
import org.benchstroke.papers.Json;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** Lists the JSON Schemas and writes them out. */
@Command(
    name = "schema",
    description = {
      Commands.SCHEMA,
      "By them an editor completes and checks the files that people write, and a program checks"
          + " the judgements and records that it reads."
    },
    mixinStandardHelpOptions = true)
final class SchemaCommand implements Callable<Integer>, LeavesMore {
  @Parameters(
      paramLabel = "NAME",
      arity = "0..1",
      description = "Which schema to print; without it they are listed.")
  private Optional<String> name = Optional.empty();

  @Option(
      names = "--out",
      paramLabel = "FILE",
      description = "Writes the schema there instead of printing it.")
  private Optional<Path> out;

  @Option(names = "--json", description = "Lists them as JSON; a schema is JSON in any case.")
  private boolean json;

  @Mixin private ForceOption force;

  @Spec private CommandSpec spec;

  @Override
  public Integer call() throws WrongRequest {
    if (name.isPresent()) {
      tell(named(name.get()));
    } else if (out.isPresent()) {
      throw new WrongRequest("--out: needs the name of a schema; there are " + names());
    } else {
      list();
    }
    return ExitCode.PASSED;
  }

  /** For a program. */
  private record Listed(String name, String what) {}

  private void list() {
    Shown shown = Shown.out(spec);
    if (json) {
      List<Listed> all =
          Arrays.stream(SchemaFile.values()).map(s -> new Listed(s.key(), s.what())).toList();
      shown.println(Json.line(all));
      return;
    }
    for (SchemaFile each : SchemaFile.values()) {
      shown.println(String.format("%-13s  %s", each.key(), each.what()));
    }
  }

  private void tell(SchemaFile schema) throws WrongRequest {
    if (out.isEmpty()) {
      Shown.out(spec).print(schema.text());
      Shown.out(spec).flush();
    } else {
      force.outputs().place("--out", out.get(), OutputFiles.Kind.SCHEMA).write(schema.text());
      Shown.out(spec).println("Schema:  " + out.get());
    }
  }

  private static SchemaFile named(String name) throws WrongRequest {
    Optional<SchemaFile> found = SchemaFile.of(name);
    if (found.isEmpty()) {
      throw new WrongRequest("schema: found \"" + name + "\", allowed are " + names());
    }
    return found.get();
  }

  private static String names() {
    return Arrays.stream(SchemaFile.values())
        .map(SchemaFile::key)
        .collect(Collectors.joining(", "));
  }
}
