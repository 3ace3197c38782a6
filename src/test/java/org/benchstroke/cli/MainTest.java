package org.benchstroke.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayOutputStream;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import picocli.CommandLine;

class MainTest {
  @Test
  void withoutACommandItHelps() {
    Command none = Command.run();
    assertThat(none.code()).isZero();
    assertThat(none.out()).contains("Usage: benchstroke").contains("Start with:");
  }

  @ParameterizedTest
  @ValueSource(strings = {"check", "run", "judge", "report", "simulate", "demo"})
  void eachCommandHelps(String command) {
    Command help = Command.run(command, "--help");
    assertThat(help.code()).isZero();
    assertThat(help.out()).contains("Usage: benchstroke " + command);
    assertThat(help.err()).isEmpty();
  }

  /**
   * A bare per cent sign is a directive there: what can't be followed is warned of on the screen.
   */
  @Test
  void noHelpHasADirectiveThatItDoesNotMean() throws Exception {
    PrintStream before = System.err;
    ByteArrayOutputStream warnings = new ByteArrayOutputStream();
    System.setErr(new PrintStream(warnings, true, StandardCharsets.UTF_8));
    try {
      CommandLines.all().getSubcommands().values().forEach(CommandLine::getUsageMessage);
    } finally {
      System.setErr(before);
    }
    assertThat(warnings.toString(StandardCharsets.UTF_8)).isEmpty();
  }

  @Test
  void anUnknownCommandIsToldWithHelp() {
    Command fly = Command.run("fly");
    assertThat(fly.code()).isEqualTo(2);
    assertThat(fly.out()).isEmpty();
    assertThat(fly.err()).contains("'fly'").contains("Usage: benchstroke");
  }

  @Test
  void missingOptionsAreAllNamed() {
    Command run = Command.run("run", "--bench", "x.toml");
    assertThat(run.code()).isEqualTo(2);
    assertThat(run.err())
        .contains("--unit-type", "--procedure", "-s=TEXT", "--operator", "--order")
        .contains("Usage: benchstroke run");
  }

  @Test
  void wrongOptionsAreTold() {
    for (List<String> wrong :
        List.of(
            List.of("check"),
            List.of("judge"),
            List.of("judge", "a.jsonl", "b.jsonl"),
            List.of("check", "--jason", "x.toml"),
            List.of("simulate", "simulators/healthy-b.toml", "--time-scale", "fast"))) {
      Command command = Command.run(wrong.toArray());
      assertThat(command.code()).as(wrong.toString()).isEqualTo(2);
      assertThat(command.err()).as(wrong.toString()).contains("Usage: benchstroke " + wrong.get(0));
    }
  }

  /** The mistake stays in sight: the help is named and not printed. */
  @Test
  void whatIsNoNumberIsToldInAFewLines() {
    for (String option : List.of("--stations", "--port", "--time-scale")) {
      String err = Command.run("simulate", "a.toml", option, "two").err();
      assertThat(err)
          .startsWith("Invalid value for option '" + option + "': found \"two\", allowed is a ")
          .endsWith("What they mean: benchstroke simulate --help\n")
          .doesNotContain("Serves a simulated bench");
    }
    assertThat(Command.run("practise", "--unit", "two").err())
        .startsWith("Invalid value for option '--unit': found \"two\", allowed is a whole number");
  }

  /** Of a unit type file given as a simulation file every other key would be a mistake too. */
  @Test
  void aFileOfAnotherKindIsToldInOneLine() {
    assertThat(Command.run("simulate", "demo-data/unit-types/quarter-turn-15s.toml").err())
        .contains("kind: is \"unit type\", but a simulation file was expected here")
        .hasLineCount(1);
  }

  @Test
  void numbersOutOfRangeAreTold() {
    String file = "simulators/healthy-b.toml";
    assertThat(Command.run("simulate", file, "--time-scale", "1000").err())
        .isEqualTo("--time-scale: found 1000, allowed is 0.1 to 100\n");
    assertThat(Command.run("simulate", file, "--time-scale", "NaN").code()).isEqualTo(2);
    assertThat(Command.run("simulate", file, "--port", "65534").err())
        .isEqualTo("--port: found 65534, allowed is 0 to 65533\n");
    assertThat(Command.run("simulate", "none.toml").err()).contains("there is no such file");
  }
}
