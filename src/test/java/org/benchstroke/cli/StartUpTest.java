package org.benchstroke.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayOutputStream;
import java.io.PrintWriter;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import picocli.CommandLine;

/** A command loads what it needs: the Java runtime itself says what it loads. */
class StartUpTest {
  /** As HotSpot logs it: {@code [0.1s][info][class,load] a.b.C source: file:/...}. */
  private static final Pattern LOADED = Pattern.compile("(?m)^\\[.*?\\] ([\\w.$]+)\\S* source: ");

  /** Packages of Java itself, and what it makes up as it goes. */
  private static final Pattern JAVA =
      Pattern.compile("(java|javax|jdk|sun|com\\.sun|org\\.jcp|org\\.xml|org\\.w3c)\\..*");

  @Test
  void theVersionLoadsNoLibrary() throws Exception {
    Set<String> loaded = loadedBy("--version");
    assertThat(loaded).contains("org.benchstroke.cli.Version");
    assertThat(loaded).allMatch(name -> name.startsWith("org.benchstroke.cli."));
  }

  @Test
  void theHelpLoadsNoCommandAndNothingButTheParser() throws Exception {
    Set<String> loaded = loadedBy("--help");
    assertThat(loaded).contains("picocli.CommandLine");
    assertThat(loaded).noneMatch(name -> name.endsWith("Command") && name.contains("benchstroke"));
    assertThat(loaded).allMatch(name -> name.matches("(org\\.benchstroke|picocli)\\..*"));
  }

  @ParameterizedTest
  @ValueSource(strings = {"check", "judge", "ports"})
  void aCommandLoadsNoOther(String command) throws Exception {
    Set<String> commands =
        loadedBy(command, "--help").stream()
            .filter(name -> name.matches("org\\.benchstroke\\.cli\\.\\w+Command"))
            .map(name -> name.replaceAll(".*\\.|Command", "").toLowerCase(Locale.ROOT))
            .collect(Collectors.toSet());
    assertThat(commands).containsExactly(command);
  }

  @Test
  void theHelpListsWhatAllCommandsSayOfThemselves() {
    String whole = CommandLines.all().getUsageMessage(CommandLine.Help.Ansi.OFF);
    assertThat(Command.run("--help").out().lines()).hasSizeGreaterThan(30);
    assertThat(narrow(Command.run("--help").out())).isEqualTo(narrow(whole));
  }

  /** The width of the terminal that a test happens to have is left out. */
  private static String narrow(String text) {
    return text.replaceAll("\\s+", " ").strip();
  }

  @Test
  void theVersionThatIsAskedAloneIsTheParsersOwn() {
    ByteArrayOutputStream alone = new ByteArrayOutputStream();
    PrintWriter writer = new PrintWriter(alone, true, StandardCharsets.UTF_8);
    for (String line : Version.lines()) {
      writer.println(line);
    }
    assertThat(alone.toString(StandardCharsets.UTF_8)).isEqualTo(Command.run("--version").out());
  }

  /** The help of a command that comes after an option is found as it ever was. */
  @Test
  void whatDoesNotBeginWithACommandIsParsedByAll() {
    assertThat(Command.run("--version", "check").out()).startsWith("benchstroke ");
    assertThat(Command.run("chekc", "x.toml").err()).contains("check");
    assertThat(Command.run("--loud", "check", "x.toml").err()).contains("--loud");
    assertThat(Command.run("check", "run", "judge").out()).contains("run: there is no such file");
  }

  /** Classes from the class path, the names without what is made up as it goes. */
  private static Set<String> loadedBy(String... arguments) throws Exception {
    List<Object> all = new ArrayList<>(List.of(arguments));
    ProcessBuilder program = Command.program(all.toArray());
    program.command().add(1, "-Xlog:class+load:stdout");
    Process process = program.redirectErrorStream(true).start();
    process.getOutputStream().close();
    String said = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
    assertThat(process.waitFor()).as(said).isZero();
    return LOADED
        .matcher(said)
        .results()
        .map(found -> found.group(1))
        .filter(name -> !JAVA.matcher(name).matches())
        .collect(Collectors.toSet());
  }
}
