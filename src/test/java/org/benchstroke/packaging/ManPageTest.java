package org.benchstroke.packaging;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.benchstroke.DebianProgram;
import org.benchstroke.cli.CommandLines;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import picocli.CommandLine;

/** Pages of the manual, as groff sets them: it warns of what it doesn't understand. */
class ManPageTest {
  @TempDir Path folder;

  @BeforeEach
  void groff() {
    DebianProgram.require("groff");
  }

  private record Page(int code, String text) {}

  private Page set(CommandLine line) throws Exception {
    Path page = folder.resolve(ManPage.file(line));
    Files.writeString(page, ManPage.of(line, "benchstroke 1"));
    List<String> groff =
        List.of("groff", "-k", "-man", "-ww", "-Tutf8", "-P-cbou", "-rLL=200n", page.toString());
    Process process = new ProcessBuilder(groff).redirectErrorStream(true).start();
    process.getOutputStream().close();
    byte[] text = process.getInputStream().readAllBytes();
    return new Page(process.waitFor(), new String(text, StandardCharsets.UTF_8));
  }

  @Test
  void everyCommandHasAPageOfWhichGroffWarnsOfNothing() throws Exception {
    List<CommandLine> lines = new ArrayList<>(List.of(CommandLines.all()));
    lines.addAll(CommandLines.all().getSubcommands().values());
    assertThat(lines).hasSizeGreaterThan(15);
    for (CommandLine line : lines) {
      Page page = set(line);
      assertThat(page.code()).isZero();
      assertThat(page.text())
          .doesNotContain("warning:")
          .contains(line.getCommandSpec().qualifiedName("-"))
          .contains("SYNOPSIS", "OPTIONS", "--help");
    }
  }

  @Test
  void thePageSaysWhatTheHelpSays() throws Exception {
    CommandLine demo = CommandLines.all().getSubcommands().get("demo");
    assertThat(set(demo).text())
        .contains("benchstroke-demo - Runs a short acceptance on a simulated bench")
        .contains("  benchstroke demo simulators/span-error.toml");
    assertThat(set(CommandLines.all()).text()).contains("benchstroke-run(1)");
  }

  /** A line that begins with a point would be lost, and a backslash would take what follows. */
  @Test
  void whatRoffWouldTakeForItselfIsText() throws Exception {
    CommandLine odd = new CommandLine(CommandLine.Model.CommandSpec.create().name("odd"));
    odd.getCommandSpec().usageMessage().description("says", ".hidden \\fB 'quote", "'begins");
    odd.getCommandSpec().mixinStandardHelpOptions(true);
    assertThat(set(odd).text()).contains(".hidden \\fB 'quote", "'begins");
  }
}
