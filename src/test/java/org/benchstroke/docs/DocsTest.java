package org.benchstroke.docs;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatCode;

import java.io.IOException;
import java.net.URI;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.concurrent.TimeUnit;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.benchstroke.bench.BenchFileReader;
import org.benchstroke.cli.CommandLines;
import org.benchstroke.core.toml.FileMistakes;
import org.benchstroke.core.toml.TomlDocument;
import org.benchstroke.docs.Pages.Block;
import org.benchstroke.simulator.SimulationReader;
import org.benchstroke.tests.ProcedureReader;
import org.benchstroke.unit.UnitTypeReader;
import org.benchstroke.web.access.OperatorsFile;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** The documents hold what they say: links, commands, whole files, the look of the repository. */
class DocsTest {
  private static final Pattern LINK = Pattern.compile("]\\(([^)\\s]+)\\)");
  private static final Pattern PROGRAM =
      Pattern.compile("(?:java -jar target/benchstroke\\.jar|benchstroke)(?=\\s|$)");
  private static final Pattern TOKEN = Pattern.compile("'[^']*'|\"[^\"]*\"|\\$\\([^)]*\\)|[^\\s]+");

  /** Where an installed package lies is the same on every machine. */
  private static final Pattern MACHINE_PATH =
      Pattern.compile(
          "(?m)(?:^|[\\s`\"'(=])(?!/opt/benchstroke|/usr/share/doc/benchstroke)"
              + "(/[A-Za-z][\\w.-]*/\\S*|[A-Z]:\\\\\\S*|~/\\S*)");

  private static final Pattern LEFT_OVER =
      Pattern.compile("TO" + "DO|FIX" + "ME|XX" + "X|\\s#\\d+");

  @TempDir Path folder;

  static List<Path> pages() {
    return Pages.all();
  }

  static List<Block> wholeFiles() {
    return Pages.blocks().stream().filter(b -> b.info().startsWith("toml ")).toList();
  }

  static List<Block> shellBlocks() {
    return Pages.blocks().stream().filter(b -> b.info().equals("sh")).toList();
  }

  @Test
  void pagesAreThere() {
    assertThat(pages()).hasSizeGreaterThan(30);
    assertThat(wholeFiles()).extracting(Block::info).contains("toml bench", "toml unit-type");
    assertThat(wholeFiles()).extracting(Block::info).contains("toml procedure", "toml simulation");
    assertThat(shellBlocks()).hasSizeGreaterThan(10);
  }

  @ParameterizedTest
  @MethodSource("pages")
  void everyLinkLeadsSomewhere(Path page) {
    Matcher links = LINK.matcher(Pages.prose(page));
    while (links.find()) {
      URI link = URI.create(links.group(1));
      if (link.isAbsolute()) {
        assertThat(link.getScheme()).as(page + ": " + link).isEqualTo("https");
        continue;
      }
      Path target = link.getPath().isEmpty() ? page : page.resolveSibling(link.getPath());
      assertThat(target.normalize()).as(page + ": " + link).exists();
      if (link.getFragment() != null) {
        assertThat(Pages.anchors(target.normalize()))
            .as(page + ": " + link)
            .contains(link.getFragment());
      }
    }
  }

  @Test
  void everyPageIsInTheIndex() {
    String index = Pages.text(Path.of("docs/README.md"));
    for (Path page : pages()) {
      if (page.startsWith("docs") && !page.equals(Path.of("docs/README.md"))) {
        assertThat(index).contains("](" + Path.of("docs").relativize(page) + ")");
      }
    }
  }

  @ParameterizedTest
  @MethodSource("wholeFiles")
  void everyWholeFileIsAccepted(Block block) throws IOException, FileMistakes {
    String name = block.page() + " " + block.info();
    switch (block.info()) {
      case "toml bench" ->
          assertThat(BenchFileReader.read(TomlDocument.parse(name, block.text())).instruments())
              .isNotEmpty();
      case "toml unit-type" ->
          assertThat(UnitTypeReader.read(TomlDocument.parse(name, block.text())).limits())
              .isNotEmpty();
      case "toml procedure" ->
          assertThat(ProcedureReader.read(TomlDocument.parse(name, block.text())).tests())
              .isNotEmpty();
      case "toml operators" ->
          assertThat(OperatorsFile.read(TomlDocument.parse(name, block.text())).operators())
              .isNotEmpty();
      case "toml simulation" -> {
        Path unitTypes = folder.resolve("demo-data/unit-types");
        Files.createDirectories(unitTypes);
        Files.copy(
            Path.of("demo-data/unit-types/quarter-turn-15s.toml"),
            unitTypes.resolve("quarter-turn-15s.toml"));
        Path file = folder.resolve("simulators/example.toml");
        Files.createDirectories(file.getParent());
        Files.writeString(file, block.text());
        assertThat(SimulationReader.read(file).name()).isNotEmpty();
      }
      default -> throw new AssertionError("no such kind of file: " + block);
    }
  }

  @Test
  void everyPieceOfAFileIsToml() {
    List<Block> pieces = Pages.blocks().stream().filter(b -> b.info().equals("toml")).toList();
    assertThat(pieces).isNotEmpty();
    for (Block piece : pieces) {
      assertThatCode(() -> TomlDocument.parse(piece.page().toString(), piece.text()))
          .as(piece.toString())
          .doesNotThrowAnyException();
    }
  }

  @ParameterizedTest
  @MethodSource("shellBlocks")
  void everyCommandParses(Block block) {
    for (String line : block.text().replaceAll("\\\\\n", " ").lines().toList()) {
      Matcher program = PROGRAM.matcher(line);
      if (line.strip().startsWith("alias ") || !program.find()) {
        continue;
      }
      String[] arguments = arguments(line.substring(program.end()));
      assertThatCode(() -> CommandLines.all().parseArgs(arguments))
          .as(block.page() + ": " + line)
          .doesNotThrowAnyException();
    }
  }

  /** The program's arguments: up to a comment, or to the end of a {@code <(…)}. */
  private static String[] arguments(String rest) {
    List<String> arguments = new ArrayList<>();
    Matcher tokens = TOKEN.matcher(rest);
    while (tokens.find() && !tokens.group().startsWith("#")) {
      String token = tokens.group();
      boolean substituted = token.startsWith("$(");
      arguments.add(substituted ? "record.jsonl" : token.replaceFirst("\\)$", ""));
    }
    return arguments.toArray(String[]::new);
  }

  /** Files that commands in the documents name are there; what they write goes to records/. */
  @ParameterizedTest
  @MethodSource("shellBlocks")
  void filesInCommandsAreThere(Block block) {
    Matcher files = Pattern.compile("(?:simulators|demo-data)/[\\w./*-]+").matcher(block.text());
    while (files.find()) {
      if (!files.group().contains("*")) {
        assertThat(Path.of(files.group())).as(block.toString()).exists();
      }
    }
  }

  @ParameterizedTest
  @MethodSource("pages")
  void noPathOfAMachineAndNothingLeftOver(Path page) {
    String text = Pages.text(page);
    assertThat(MACHINE_PATH.matcher(text).results().map(r -> r.group(1)))
        .as("absolute paths in " + page)
        .isEmpty();
    assertThat(LEFT_OVER.matcher(Pages.prose(page)).results().map(r -> r.group()))
        .as("left over in " + page)
        .isEmpty();
  }

  @Test
  void readmeBeginsWithTheJob() {
    List<String> lines = Pages.text(Path.of("README.md")).lines().toList();
    assertThat(lines.get(0)).isEqualTo("# benchstroke");
    assertThat(lines.get(1)).isEmpty();
    String first =
        String.join(" ", lines.subList(2, lines.subList(2, lines.size()).indexOf("") + 2));
    assertThat(first)
        .startsWith("With benchstroke")
        .contains("technician", "motorised valve actuator", "SCPI", "Modbus TCP")
        .contains("uncertainty", "record", "report");
  }

  @Test
  void readmeHasItsTwoCommandsAPictureAndTenLines() {
    String readme = Pages.text(Path.of("README.md"));
    assertThat(readme).contains("mvn -q -Pdemo", "mvn verify", "docs/images/report.png");
    assertThat(Path.of("docs/images/report.png")).isNotEmptyFile();
    assertThat(Path.of("docs/images/report.png").toFile().length()).isLessThan(300_000);
    Block tour =
        Pages.blocks().stream()
            .filter(b -> b.page().equals(Path.of("README.md")))
            .reduce((before, last) -> last)
            .orElseThrow();
    assertThat(tour.text().lines())
        .hasSize(10)
        .allMatch(line -> line.matches("java -jar target/benchstroke\\.jar .+ # .+"));
  }

  @Test
  void topLevelHoldsNothingElse() throws IOException, InterruptedException {
    assertThat(topLevel())
        .containsExactlyInAnyOrder(
            "README.md", "DEVELOPERS.md", "pom.xml", "src", "simulators", "demo-data", "docs");
  }

  /** What stands at the top: what is kept in git, or without git all that no build has made. */
  private static Set<String> topLevel() throws IOException, InterruptedException {
    Set<String> names = new TreeSet<>();
    if (Files.exists(Path.of(".git"))) {
      Process git = new ProcessBuilder("git", "ls-files").redirectErrorStream(true).start();
      String listed = new String(git.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
      assertThat(git.waitFor(30, TimeUnit.SECONDS)).isTrue();
      assertThat(git.exitValue()).as(listed).isZero();
      listed.lines().map(file -> file.replaceFirst("/.*", "")).forEach(names::add);
    } else {
      try (Stream<Path> files = Files.list(Path.of(""))) {
        files.map(file -> file.getFileName().toString()).forEach(names::add);
      }
      names.removeAll(Set.of("target", "records"));
    }
    names.removeIf(name -> name.startsWith("."));
    return names;
  }

  @Test
  void everyExampleFilePassesTheCheck() throws IOException {
    List<String> arguments = new ArrayList<>(List.of("check"));
    for (String place : List.of("demo-data", "simulators")) {
      try (Stream<Path> files = Files.walk(Path.of(place))) {
        files.map(Path::toString).filter(f -> f.endsWith(".toml")).sorted().forEach(arguments::add);
      }
    }
    assertThat(arguments).hasSizeGreaterThan(11);
    CommandLines.Done done = CommandLines.execute(arguments.toArray(String[]::new));
    assertThat(done.code()).as(done.text()).isZero();
  }
}
