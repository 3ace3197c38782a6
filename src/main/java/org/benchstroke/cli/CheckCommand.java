package org.benchstroke.cli;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.Callable;
import org.benchstroke.bench.toml.FileMistakes;
import org.benchstroke.bench.toml.Mistake;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** Reads files that a person wrote and lists every mistake. */
@Command(
    name = "check",
    description = {
      "Lists every mistake in bench, unit type, procedure and simulation files.",
      "Each is told with its file, line, key, what was found and what is allowed."
    },
    mixinStandardHelpOptions = true)
final class CheckCommand implements Callable<Integer> {
  @Parameters(paramLabel = "FILE", arity = "1..*", description = "The files to check.")
  private List<Path> files;

  @Option(names = "--json", description = "Lists the mistakes as JSON.")
  private boolean json;

  @Spec private CommandSpec spec;

  @Override
  public Integer call() throws JsonProcessingException {
    PrintWriter out = spec.commandLine().getOut();
    List<Mistake> mistakes = new ArrayList<>();
    for (Path file : files) {
      try {
        FileKinds.Found found = FileKinds.read(file);
        if (!json) {
          out.println(file + ": ok, a " + found.kind() + " file");
          found.understood().forEach(line -> out.println("  " + line));
        }
      } catch (FileMistakes e) {
        mistakes.addAll(e.mistakes());
      }
    }
    if (json) {
      out.println(new ObjectMapper().writeValueAsString(mistakes));
    } else {
      mistakes.forEach(mistake -> out.println(mistake.text()));
      if (!mistakes.isEmpty()) {
        out.println(mistakes.size() + (mistakes.size() == 1 ? " mistake" : " mistakes"));
      }
    }
    return mistakes.isEmpty() ? ExitCode.PASSED : ExitCode.WRONG_REQUEST;
  }
}
