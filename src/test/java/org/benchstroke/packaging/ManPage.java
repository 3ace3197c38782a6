package org.benchstroke.packaging;

import java.util.List;
import java.util.Locale;
import picocli.CommandLine;
import picocli.CommandLine.Model.ArgSpec;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Model.OptionSpec;
import picocli.CommandLine.Model.PositionalParamSpec;
import picocli.CommandLine.Model.UsageMessageSpec;

/** A command's manual page in roff, from what its help says: man(7). */
final class ManPage {
  private final CommandLine line;
  private final String program;
  private final StringBuilder page = new StringBuilder();

  private ManPage(CommandLine line, String program) {
    this.line = line;
    this.program = program;
  }

  /** The name of its file: {@code benchstroke-run.1}. */
  static String file(CommandLine line) {
    return name(line) + ".1";
  }

  private static String name(CommandLine line) {
    return line.getCommandSpec().qualifiedName("-");
  }

  /**
   * The page.
   *
   * @param program its name and version
   */
  static String of(CommandLine line, String program) {
    return new ManPage(line, program).write();
  }

  private String write() {
    CommandSpec spec = line.getCommandSpec();
    UsageMessageSpec usage = spec.usageMessage();
    List<String> says = List.of(usage.description());
    page.append(".TH \"" + name(line).toUpperCase(Locale.ROOT) + "\" 1 \"\" \"" + program + "\"\n");
    page.append(".nh\n.ad l\n");
    section("NAME");
    text(name(line) + " - " + says.get(0));
    section("SYNOPSIS");
    text(line.getHelp().synopsis(0).strip().replaceAll("\\s+", " "));
    section("DESCRIPTION");
    says.forEach(this::paragraph);
    options(spec);
    commands();
    footer(List.of(usage.footer()));
    return page.toString();
  }

  private void options(CommandSpec spec) {
    section("OPTIONS");
    for (PositionalParamSpec parameter : spec.positionalParameters()) {
      item(parameter.paramLabel(), parameter);
    }
    for (OptionSpec option : spec.options()) {
      boolean value = option.arity().max() > 0;
      String names = String.join(", ", option.names());
      item(value ? names + " " + option.paramLabel() : names, option);
    }
  }

  private void item(String term, ArgSpec about) {
    if (!about.hidden()) {
      page.append(".TP\n");
      text(term);
      text(String.join(" ", about.description()).replace("%%", "%").replace("%n", " "));
    }
  }

  private void commands() {
    if (line.getSubcommands().isEmpty()) {
      return;
    }
    section("COMMANDS");
    for (CommandLine command : line.getSubcommands().values()) {
      page.append(".TP\n");
      text(name(command) + "(1)");
      text(command.getCommandSpec().usageMessage().description()[0]);
    }
  }

  /** As it is: its lines are examples and tables. */
  private void footer(List<String> lines) {
    if (lines.isEmpty()) {
      return;
    }
    section("NOTES");
    page.append(".nf\n");
    lines.forEach(this::text);
    page.append(".fi\n");
  }

  private void section(String title) {
    page.append(".SH " + title + "\n");
  }

  private void paragraph(String words) {
    if (!words.isBlank()) {
      page.append(".PP\n");
      text(words);
    }
  }

  /** A line that begins with a point or an apostrophe is a request to roff; \& is nothing. */
  private void text(String words) {
    String plain = CommandLine.Help.Ansi.OFF.string(words);
    String safe =
        plain.replace("\\", "\\e").replace("-", "\\-").replace("%n", " ").replace("%%", "%");
    page.append(safe.isEmpty() ? "\\&" : safe.replaceAll("(?m)^([.'])", "\\\\&$1")).append('\n');
  }
}
