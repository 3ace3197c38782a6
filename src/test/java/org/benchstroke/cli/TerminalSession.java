package org.benchstroke.cli;

import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.function.Predicate;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.benchstroke.DebianProgram;

/**
 * The program as a process on a real pseudo-terminal, with a person at it who can be told to look
 * away: see {@code src/test/resources/terminal/person.py}.
 */
final class TerminalSession implements AutoCloseable {
  private static final long LONGEST_WAIT_SECONDS = 120;

  /** Longer than the program forgets keys after a question. */
  private static final long MOMENT_MILLIS = 500;

  private final Process person;
  private final StringBuilder screen = new StringBuilder();
  private final StringBuilder told = new StringBuilder();
  private final List<Thread> readers = new ArrayList<>();

  private TerminalSession(Process person) {
    this.person = person;
    readers.add(follow(person.getInputStream(), screen, "screen"));
    readers.add(follow(person.getErrorStream(), told, "told"));
  }

  /** A terminal, and a program that is not started yet. */
  static TerminalSession at(int columns, Object... arguments) throws IOException {
    return at(columns, Command.KEYS, arguments);
  }

  /** Likewise, with the key of another place. */
  static TerminalSession at(int columns, KeyPlace keys, Object... arguments) throws IOException {
    DebianProgram.require("python3");
    List<String> command = new ArrayList<>();
    command.addAll(List.of("python3", "src/test/resources/terminal/person.py"));
    command.add(String.valueOf(columns));
    command.addAll(program(keys, arguments));
    return new TerminalSession(new ProcessBuilder(command).start());
  }

  /** The program with its arguments, as another process starts it. */
  static List<String> program(Object... arguments) {
    return program(Command.KEYS, arguments);
  }

  private static List<String> program(KeyPlace keys, Object... arguments) {
    List<String> command =
        new ArrayList<>(
            List.of(
                "env",
                "-u",
                Surroundings.SHOP,
                KeyPlace.FOLDER + "=" + keys.folder(),
                "XDG_CONFIG_HOME=" + keys.folder().toAbsolutePath(),
                System.getProperty("java.home") + "/bin/java",
                "-XX:+UseSerialGC",
                "-XX:TieredStopAtLevel=1",
                "-cp",
                System.getProperty("java.class.path"),
                Main.class.getName()));
    Stream.of(arguments).map(String::valueOf).forEach(command::add);
    return command;
  }

  TerminalSession begin() throws IOException {
    order("begin");
    await(told, "started ");
    return this;
  }

  void type(String keys) throws IOException {
    StringBuilder literal = new StringBuilder();
    keys.chars().forEach(key -> literal.append(String.format("\\x%02x", key)));
    order("type '" + literal + "'");
  }

  /** The terminal takes nothing more. */
  void stand() throws IOException {
    order("stand");
  }

  void goOn() throws IOException {
    order("go");
  }

  /** The window is so many columns wide now. */
  void wide(int columns) throws IOException {
    order("wide " + columns);
  }

  void closeTerminal() throws IOException {
    order("gone");
  }

  /** Sends the program a signal, such as TERM. */
  void signal(String name) throws IOException {
    kill(name, program());
  }

  /** Sends it to the program and to all that it has started: its process group. */
  void signalAll(String name) throws IOException {
    kill(name, "-" + program());
  }

  private String program() {
    Matcher pid = Pattern.compile("started (\\d+)").matcher(text(told));
    if (!pid.find()) {
      throw new IllegalStateException("it was not started");
    }
    return pid.group(1);
  }

  private static void kill(String signal, String whom) throws IOException {
    new ProcessBuilder("kill", "-" + signal, "--", whom).start().onExit().join();
  }

  /** Waits until the terminal has shown this, and gives all that it has shown. */
  String awaitShown(String words) {
    return await(screen, words);
  }

  /** Waits until the terminal has shown this so many times. */
  void awaitShown(String words, int times) {
    await(screen, text -> text.split(Pattern.quote(words), -1).length > times, words);
  }

  /** Waits until the terminal has shown more than so many characters, though not for long. */
  void awaitMore(int characters) throws InterruptedException {
    synchronized (screen) {
      if (screen.length() <= characters) {
        screen.wait(MOMENT_MILLIS);
      }
    }
  }

  /** Waits until the program has ended, and gives its exit code. */
  int awaitEnd() {
    await(told, "ended ");
    Matcher code = Pattern.compile("ended (-?\\d+)").matcher(text(told));
    return code.find() ? Integer.parseInt(code.group(1)) : Integer.MIN_VALUE;
  }

  /** Waits until the program and all that it has started are gone from the terminal. */
  void awaitAlone() {
    await(told, "alone");
  }

  /** How the program left the terminal: "lines" is how it was. */
  String left() {
    await(told, "left ");
    Matcher mode = Pattern.compile("left (\\w+)").matcher(text(told));
    return mode.find() ? mode.group(1) : "";
  }

  String shown() {
    return text(screen);
  }

  private void order(String line) throws IOException {
    OutputStream orders = person.getOutputStream();
    orders.write((line + "\n").getBytes(StandardCharsets.UTF_8));
    orders.flush();
  }

  private static String text(StringBuilder seen) {
    synchronized (seen) {
      return seen.toString();
    }
  }

  private String await(StringBuilder seen, String words) {
    return await(seen, text -> text.contains(words), words);
  }

  private String await(StringBuilder seen, Predicate<String> come, String what) {
    synchronized (seen) {
      long waited = 0;
      while (!come.test(seen.toString()) && waited < LONGEST_WAIT_SECONDS && follows()) {
        try {
          seen.wait(1000);
        } catch (InterruptedException e) {
          throw new IllegalStateException(e);
        }
        waited++;
      }
      if (!come.test(seen.toString())) {
        throw new AssertionError("\"" + what + "\" did not come:\n" + seen + "\n" + text(told));
      }
      return seen.toString();
    }
  }

  private boolean follows() {
    return readers.stream().anyMatch(Thread::isAlive);
  }

  private static Thread follow(InputStream stream, StringBuilder into, String name) {
    Thread reader = new Thread(() -> readAll(stream, into), name);
    reader.setDaemon(true);
    reader.start();
    return reader;
  }

  private static void readAll(InputStream stream, StringBuilder into) {
    byte[] bytes = new byte[8192];
    try {
      for (int read = stream.read(bytes); read >= 0; read = stream.read(bytes)) {
        synchronized (into) {
          into.append(new String(bytes, 0, read, StandardCharsets.UTF_8));
          into.notifyAll();
        }
      }
    } catch (IOException e) {
      // It has ended.
      return;
    }
  }

  @Override
  public void close() {
    List<ProcessHandle> below = person.descendants().toList();
    person.destroyForcibly().onExit().join();
    below.forEach(ProcessHandle::destroyForcibly);
  }
}
