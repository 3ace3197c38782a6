package org.benchstroke.cli;

import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.atomic.AtomicReference;
import org.benchstroke.core.clock.SystemClock;

/**
 * What happened inside where the program itself failed: a file with the stack, for whoever mends
 * it, since no stack reaches the terminal. One for each process, as what it failed at mostly fails
 * again. Any thread.
 */
final class CrashFile {
  /** What a process needs to write one. */
  private record Place(Path folder, List<String> arguments) {}

  private static final AtomicReference<Optional<Place>> PLACE =
      new AtomicReference<>(Optional.empty());

  private CrashFile() {}

  /**
   * Names the folder; until then nothing is written.
   *
   * @param arguments the command, for the file
   */
  static void into(Path folder, List<String> arguments) {
    PLACE.set(Optional.of(new Place(folder, List.copyOf(arguments))));
  }

  /** Writes no more. */
  static void nowhere() {
    PLACE.set(Optional.empty());
  }

  /** Also what no command waits for: a thread that dies tells of it in a line. */
  static void watchThreads() {
    Thread.setDefaultUncaughtExceptionHandler(
        (thread, e) -> System.err.println("benchstroke failed: " + summary(e) + told(e)));
  }

  private static String summary(Throwable e) {
    return e.toString().lines().findFirst().orElse("") + ".";
  }

  /**
   * Writes it.
   *
   * @return a sentence that names the file, with a blank before it; nothing where none is written
   */
  static String told(Throwable e) {
    return write(e).map(file -> " What happened inside is in " + file + ".").orElse("");
  }

  /** Writes it, if it is wanted and can be. */
  static Optional<Path> write(Throwable e) {
    Optional<Place> place = PLACE.getAndSet(Optional.empty());
    if (place.isEmpty()) {
      return Optional.empty();
    }
    try {
      // Only its owner may read it: arguments name customers and places.
      Path file = Files.createTempFile(place.get().folder(), "benchstroke-failed-", ".txt");
      Files.writeString(file, text(e, place.get().arguments()));
      return Optional.of(file);
    } catch (IOException | RuntimeException unwritable) {
      return Optional.empty();
    }
  }

  private static String text(Throwable e, List<String> arguments) {
    StringWriter text = new StringWriter();
    PrintWriter out = new PrintWriter(text);
    List.of(Version.lines()).forEach(out::println);
    out.println("Java " + Runtime.version() + ", " + System.getProperty("java.vm.name", ""));
    out.println(System.getProperty("os.name", "") + " " + System.getProperty("os.version", ""));
    out.println("At " + SystemClock.realTime().utc());
    out.println("Arguments: " + withoutSecrets(arguments));
    out.println("Thread: " + Thread.currentThread().getName());
    out.println();
    e.printStackTrace(out);
    out.flush();
    return text.toString();
  }

  /** An address may hold a user and a password. */
  static List<String> withoutSecrets(List<String> arguments) {
    return arguments.stream().map(text -> text.replaceAll("://[^/@\\s]*@", "://…@")).toList();
  }
}
