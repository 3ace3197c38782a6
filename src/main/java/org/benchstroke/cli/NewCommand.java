package org.benchstroke.cli;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.Callable;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.benchstroke.app.ExitCode;
import org.benchstroke.app.OutputFiles;
import org.benchstroke.app.Starter;
import org.benchstroke.app.WrongRequest;
import org.benchstroke.core.files.GivenFile;
import org.benchstroke.core.files.Unreadable;
import org.benchstroke.core.toml.FileMistakes;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** Writes a file to begin with. */
@Command(
    name = "new",
    description = {
      Commands.NEW,
      "A few questions are asked at a terminal; --set answers them beforehand. What nobody answers"
          + " gets a usual value, but for what could move a unit. \"check\" takes the file as it is;"
          + " nothing is written over."
    },
    mixinStandardHelpOptions = true,
    sortOptions = false,
    footer = {
      "",
      "Examples:",
      "  benchstroke new bench bench.toml",
      "  benchstroke new unit-type unit.toml --set safe_signal_mA=4 --set signal_loss=close",
      "  benchstroke scan tcp://192.0.2.12:502 --json > scan.json",
      "  benchstroke new bench bench.toml --from scan.json"
    })
final class NewCommand implements Callable<Integer>, LeavesMore {
  private static final int MOST_BYTES = 1_000_000;

  @Parameters(index = "0", paramLabel = "KIND", description = "bench, unit-type or procedure.")
  private String kind;

  @Parameters(index = "1", paramLabel = "FILE", description = "The file to write.")
  private Path file;

  @Option(
      names = "--set",
      paramLabel = "KEY=VALUE",
      description = "Answers a question; repeatable. --questions lists them.")
  private Map<String, String> set = new LinkedHashMap<>();

  @Option(
      names = "--from",
      paramLabel = "JSON",
      description = "Of a bench: what \"scan --json\" or \"probe --json\" printed.")
  private Optional<Path> from = Optional.empty();

  @Option(names = "--questions", description = "Lists the questions, and writes nothing.")
  private boolean questions;

  @Spec private CommandSpec spec;

  @Override
  public Integer call() throws WrongRequest, IOException, FileMistakes {
    Starter starter =
        Starter.of(kind)
            .orElseThrow(
                () -> new WrongRequest("new: found \"" + kind + "\", allowed are " + kinds()));
    if (questions) {
      list(starter);
      return ExitCode.PASSED;
    }
    if (Files.exists(file, LinkOption.NOFOLLOW_LINKS)) {
      throw new WrongRequest(file + ": exists, and nothing is written over; name another file");
    }
    List<String> found = new ArrayList<>(); // each in a line of its own, whatever was found
    Map<String, String> answers = answers(starter, found);
    OutputFiles outputs = new OutputFiles(false).given("file of what was found", from);
    outputs.place("", file, OutputFiles.Kind.FILE_TO_EDIT).write(starter.text(answers, found));
    Shown out = Shown.out(spec);
    out.println("Written: " + file);
    Path schema = file.resolveSibling(starter.schema().fileName());
    if (!Files.exists(schema, LinkOption.NOFOLLOW_LINKS)) {
      outputs.place("", schema, OutputFiles.Kind.SCHEMA).write(starter.schema().text());
      out.println("Schema:  " + schema + ", by which an editor completes and checks it");
    }
    FileKinds.read(file);
    out.println("It is sound as it is. Put your own facts in, then: check " + file);
    out.flush();
    return ExitCode.PASSED;
  }

  private static String kinds() {
    return Stream.of(Starter.values()).map(Starter::key).collect(Collectors.joining(", "));
  }

  private void list(Starter starter) {
    Shown out = Shown.out(spec);
    for (Starter.Question question : starter.questions()) {
      String usual = question.otherwise().isEmpty() ? "must be answered" : question.otherwise();
      out.println(
          String.format(
              Locale.ROOT,
              "%-17s %s (%s; %s)",
              question.key(),
              question.words(),
              question.allowedWords(),
              usual));
    }
    out.flush();
  }

  private Map<String, String> answers(Starter starter, List<String> found)
      throws WrongRequest, IOException {
    Map<String, String> before = new LinkedHashMap<>(found(starter, found));
    before.putAll(set);
    Map<String, String> answers = new LinkedHashMap<>();
    for (Starter.Question question : starter.questions()) {
      String given = before.remove(question.key());
      answers.put(question.key(), given != null ? question.answered(given) : asked(question));
    }
    if (!before.isEmpty()) {
      throw new WrongRequest(
          "--set: found "
              + String.join(", ", before.keySet())
              + "; the questions are "
              + starter.questions().stream()
                  .map(Starter.Question::key)
                  .collect(Collectors.joining(", ")));
    }
    return answers;
  }

  private String asked(Starter.Question question) throws WrongRequest, IOException {
    String usual = question.otherwise().isEmpty() ? "" : " [" + question.otherwise() + "]";
    Optional<String> typed = Input.of(spec).line(Shown.out(spec), question.words() + usual + " ");
    if (typed.isPresent()) {
      return question.answered(typed.get());
    }
    if (question.otherwise().isEmpty()) {
      throw new WrongRequest(
          question.key()
              + ": nobody may guess it: "
              + question.words()
              + " Answer with --set "
              + question.key()
              + "=VALUE, "
              + question.allowedWords());
    }
    return question.otherwise();
  }

  /** What a scan or a probe found, as answers, and what else it found as comments. */
  private Map<String, String> found(Starter starter, List<String> comments) throws WrongRequest {
    Map<String, String> answers = new LinkedHashMap<>();
    if (from.isEmpty()) {
      return answers;
    }
    if (starter != Starter.BENCH) {
      throw new WrongRequest("--from: goes with a bench; a " + kind + " can't be found by asking");
    }
    JsonNode json = read(from.get());
    if (json.path("answers").isArray()) {
      scanned(json, answers, comments);
    } else if (json.path("roles").isArray()) {
      probed(json, comments);
    } else {
      throw new WrongRequest(
          from.get() + ": is neither what \"scan --json\" nor what \"probe --json\" prints");
    }
    return answers;
  }

  private static void scanned(JsonNode scan, Map<String, String> answers, List<String> comments) {
    String address = scan.path("address").asText();
    if (address.startsWith("tcp://")) {
      answers.put("position_address", address);
    }
    comments.add("Found by a scan of " + address + ":");
    for (JsonNode answer : scan.path("answers")) {
      if (answer.path("device").asBoolean()) {
        String id = answer.path("unit_id").asText();
        answers.putIfAbsent("position_unit_id", id);
        comments.add("  unit id " + id + ": " + answer.path("words").asText());
      }
    }
  }

  private static void probed(JsonNode probe, List<String> comments) {
    comments.add("Found by a probe of " + probe.path("bench").asText() + ":");
    for (JsonNode each : probe.path("roles")) {
      comments.add(
          "  "
              + each.path("instrument").asText()
              + ", "
              + each.path("role").asText()
              + ": "
              + each.path("identity").asText("no identity")
              + ", "
              + each.path("value").asText());
    }
  }

  private static JsonNode read(Path file) throws WrongRequest {
    try {
      return new ObjectMapper().readTree(GivenFile.text(GivenFile.bytes(file, MOST_BYTES)));
    } catch (Unreadable e) {
      throw new WrongRequest(file + ": " + e.getMessage());
    } catch (JsonProcessingException e) {
      throw new WrongRequest(file + ": is no JSON: " + e.getOriginalMessage());
    }
  }
}
