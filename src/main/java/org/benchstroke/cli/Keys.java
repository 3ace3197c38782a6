package org.benchstroke.cli;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.nio.charset.StandardCharsets;
import java.util.Optional;
import java.util.concurrent.BlockingQueue;
import java.util.concurrent.LinkedBlockingQueue;
import java.util.concurrent.TimeUnit;

/**
 * Lines typed at the terminal. A thread of its own reads them, so that a wait for an answer can be
 * ended by a stop.
 */
final class Keys {
  private static final String END = "\u0004";

  private final BlockingQueue<String> lines = new LinkedBlockingQueue<>();

  Keys(InputStream in) {
    this(in, () -> {});
  }

  /**
   * Also tells when no more lines will come.
   *
   * @param atEnd called from the thread that reads
   */
  Keys(InputStream in, Runnable atEnd) {
    Thread reader = new Thread(() -> readToEnd(in, atEnd), "keys");
    reader.setDaemon(true);
    reader.start();
  }

  /** A line, if one comes within a tenth of a second. */
  Optional<String> poll() {
    try {
      return Optional.ofNullable(lines.poll(100, TimeUnit.MILLISECONDS));
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      return Optional.of(END);
    }
  }

  /** Waits until no more lines will come. */
  void awaitEnd() {
    Optional<String> line = poll();
    while (line.isEmpty() || !isEnd(line.get())) {
      line = poll();
    }
  }

  /** Whether this line says that no more will come. */
  static boolean isEnd(String line) {
    return line.equals(END);
  }

  private void readToEnd(InputStream in, Runnable atEnd) {
    read(in);
    atEnd.run();
  }

  private void read(InputStream in) {
    try (BufferedReader reader =
        new BufferedReader(new InputStreamReader(in, StandardCharsets.UTF_8))) {
      for (String line = reader.readLine(); line != null; line = reader.readLine()) {
        lines.add(line.strip());
      }
    } catch (IOException e) {
      // The terminal is gone: as if it had been closed.
    }
    lines.add(END);
  }
}
