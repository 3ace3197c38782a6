package org.benchstroke.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayInputStream;
import java.io.InputStream;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import java.util.stream.Stream;
import org.benchstroke.app.GivenFiles;
import org.benchstroke.app.Setting;
import org.benchstroke.bench.BenchFile;
import org.benchstroke.core.clock.BenchClock;

/**
 * What a command said and how it ended. Whatever it was asked, it never shows its insides.
 *
 * @param code its exit code
 * @param out what it printed
 * @param err what it printed as an error
 */
record Command(int code, String out, String err) {
  /** Empty. Never this process's own: who runs the tests speaks to it there. */
  static final Input NO_INPUT = Input.piped(InputStream.nullInputStream());

  /** Where every command under test finds its key: never this user's own place. */
  static final KeyPlace KEYS = new KeyPlace(Path.of("target/test-keys"), Optional.empty());

  /** The program with a command, as a process of its own with the same key. */
  static ProcessBuilder program(Object... arguments) {
    ProcessBuilder program = Invocation.again(Stream.of(arguments).map(String::valueOf).toList());
    program.environment().put(KeyPlace.FOLDER, KEYS.folder().toString());
    program.environment().put("XDG_CONFIG_HOME", KEYS.folder().toAbsolutePath().toString());
    List.of(Surroundings.SHOP, Surroundings.USER).forEach(program.environment()::remove);
    for (Setting setting : Setting.values()) {
      program.environment().remove(setting.variable());
    }
    return program;
  }

  /** Runs a command in this process, with nothing to read. */
  static Command run(Object... arguments) {
    return run(NO_INPUT, GivenFiles::systemClockOf, KEYS, arguments);
  }

  /** Likewise, with the key of another place. */
  static Command keyed(KeyPlace keys, Object... arguments) {
    return run(NO_INPUT, GivenFiles::systemClockOf, keys, arguments);
  }

  /** Likewise, by the clock of whoever serves the bench in this process. */
  static Command keyed(KeyPlace keys, BenchClock clock, Object... arguments) {
    return run(NO_INPUT, bench -> clock, keys, arguments);
  }

  /** Likewise, by the clock of whoever serves the bench in this process. */
  static Command run(BenchClock clock, Object... arguments) {
    return run(NO_INPUT, bench -> clock, KEYS, arguments);
  }

  /** Runs a command with lines that were written beforehand. */
  static Command typed(String lines, Object... arguments) {
    byte[] bytes = lines.getBytes(StandardCharsets.UTF_8);
    Input piped = Input.piped(new ByteArrayInputStream(bytes));
    return run(piped, GivenFiles::systemClockOf, KEYS, arguments);
  }

  /** Runs a command where the environment names a shop file. */
  static Command runInShop(Path shop, Object... arguments) {
    return runIn(Map.of(Surroundings.SHOP, shop.toString()), arguments);
  }

  /** Runs a command where the environment has variables, and no configuration folder. */
  static Command runIn(Map<String, String> variables, Object... arguments) {
    return runIn(new Surroundings(variables, Optional.empty()), arguments);
  }

  /** Runs a command with what is stated around it. */
  static Command runIn(Surroundings around, Object... arguments) {
    return run(NO_INPUT, GivenFiles::systemClockOf, KEYS, around, arguments);
  }

  private static Command run(
      Input in, Function<BenchFile, BenchClock> clocks, KeyPlace keys, Object... arguments) {
    return run(in, clocks, keys, Surroundings.NONE, arguments);
  }

  private static Command run(
      Input in,
      Function<BenchFile, BenchClock> clocks,
      KeyPlace keys,
      Surroundings around,
      Object... arguments) {
    StringWriter out = new StringWriter();
    StringWriter err = new StringWriter();
    String[] args = Stream.of(arguments).map(String::valueOf).toArray(String[]::new);
    int code =
        Main.execute(
            in, clocks, keys, around, new PrintWriter(out, true), new PrintWriter(err, true), args);
    Command command = new Command(code, text(out), text(err));
    assertThat(command.out() + command.err())
        .doesNotContain("Exception")
        .doesNotContain("\tat ")
        .doesNotContain("java.")
        .doesNotContain("fault in the program");
    return command;
  }

  /** A bench, a unit type and a procedure file, and all else that a run needs. */
  static Object[] runArguments(Path bench, Path unit, Path records) {
    Path whole = Path.of("demo-data/procedures/short-acceptance.toml");
    return runArguments(bench, unit, whole, records);
  }

  static Object[] runArguments(Path bench, Path unit, Path procedure, Path records) {
    return new Object[] {
      "run",
      "--unattended",
      "--bench",
      bench,
      "--unit-type",
      unit,
      "--procedure",
      procedure,
      "--serial",
      "T-1",
      "--operator",
      "Ann",
      "--order",
      "none",
      "--records",
      records
    };
  }

  private static String text(StringWriter writer) {
    return writer.toString().replace(System.lineSeparator(), "\n");
  }
}
