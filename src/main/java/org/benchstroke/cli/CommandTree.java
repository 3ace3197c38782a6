package org.benchstroke.cli;

import java.util.List;
import java.util.function.Function;
import java.util.regex.Pattern;
import org.benchstroke.core.quantity.Visible;
import picocli.CommandLine;

/** What the arguments are parsed by. Stateless. */
final class CommandTree {
  private static final Pattern DECIMAL =
      Pattern.compile("[+-]?([0-9]+\\.?[0-9]*|\\.[0-9]+)([eE][+-]?[0-9]{1,3})?");

  private CommandTree() {}

  /** All commands. */
  static CommandLine whole(Root root) {
    CommandLine line = new CommandLine(root);
    Commands.addAll(line);
    return set(root, line);
  }

  /**
   * As much of it as these arguments need: the command that they begin with, or, where there is
   * none among them, a list of the commands for the help and for a name that was mistyped.
   */
  static CommandLine asked(Root root, List<String> arguments) {
    boolean none = arguments.stream().noneMatch(Commands::has);
    if (!none && !Commands.has(arguments.get(0))) {
      return whole(root);
    }
    CommandLine line = new CommandLine(root);
    if (none) {
      Commands.list(line);
    } else {
      Commands.add(line, arguments.get(0));
    }
    return set(root, line);
  }

  private static CommandLine set(Root root, CommandLine line) {
    line.setUsageHelpAutoWidth(true)
        // A serial number may begin with @: it names no file of arguments.
        .setExpandAtFiles(false)
        .setCaseInsensitiveEnumValuesAllowed(true)
        .setExecutionStrategy(root::carryOut)
        .setExecutionExceptionHandler(Mistakes::told)
        .setParameterExceptionHandler(Mistakes::toldShortly);
    line.getCommandSpec().version(Version.lines());
    line.registerConverter(String.class, CommandTree::readable);
    line.registerConverter(int.class, text -> number(text, Integer::valueOf, "a whole number"));
    line.registerConverter(Integer.class, text -> number(text, Integer::valueOf, "a whole number"));
    line.registerConverter(Long.class, text -> number(text, Long::valueOf, "a whole number"));
    line.registerConverter(double.class, text -> number(text, CommandTree::decimal, "a number"));
    line.registerConverter(Double.class, text -> number(text, CommandTree::decimal, "a number"));
    return line;
  }

  /** A serial number or a name with a control character in it would not be what it looks like. */
  private static String readable(String text) {
    if (text.chars().anyMatch(Character::isISOControl) || !Visible.of(text).equals(text)) {
      throw new CommandLine.TypeConversionException(
          "found \""
              + text.replace("\n", "\\n")
              + "\", allowed is text without control characters");
    }
    return text;
  }

  private static <T> T number(String text, Function<String, T> read, String allowed) {
    try {
      return read.apply(text);
    } catch (NumberFormatException e) {
      throw new CommandLine.TypeConversionException(
          "found \"" + text + "\", allowed is " + allowed);
    }
  }

  /** A number as people write it: not Java's own "7d", "0x1p3", "NaN" or "Infinity". */
  private static double decimal(String text) {
    double value = DECIMAL.matcher(text).matches() ? Double.parseDouble(text) : Double.NaN;
    if (!Double.isFinite(value)) {
      throw new NumberFormatException();
    }
    return value + 0.0; // -0 is 0
  }
}
