package org.benchstroke.cli;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardWatchEventKinds;
import java.nio.file.WatchKey;
import java.nio.file.WatchService;
import java.util.Optional;
import java.util.concurrent.Callable;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;

/** Waits for words in the record of a folder while it is being written. */
final class RecordTail implements AutoCloseable {
  private static final long LONGEST_WAIT_SECONDS = 120;

  private final Path folder;
  private final WatchService watch;

  RecordTail(Path folder) throws IOException {
    this.folder = folder;
    this.watch = folder.getFileSystem().newWatchService();
    folder.register(
        watch, StandardWatchEventKinds.ENTRY_CREATE, StandardWatchEventKinds.ENTRY_MODIFY);
  }

  void await(String words) {
    await(() -> contains(words), words);
  }

  /** Waits for a file whose name ends so. */
  void awaitFile(String end) {
    await(() -> file(end).isPresent(), end);
  }

  private void await(Callable<Boolean> come, String what) {
    try {
      while (!come.call()) {
        WatchKey key = watch.poll(LONGEST_WAIT_SECONDS, TimeUnit.SECONDS);
        if (key == null) {
          throw new IllegalStateException("the record did not come to " + what);
        }
        key.pollEvents();
        key.reset();
      }
    } catch (Exception e) {
      throw new IllegalStateException(e);
    }
  }

  @Override
  public void close() {
    try {
      watch.close();
    } catch (IOException e) {
      throw new IllegalStateException(e);
    }
  }

  private boolean contains(String words) throws IOException {
    Optional<Path> found = file(".jsonl");
    return found.isPresent() && Files.readString(found.get()).contains(words);
  }

  private Optional<Path> file(String end) throws IOException {
    try (Stream<Path> files = Files.walk(folder)) {
      return files
          .filter(f -> f.toString().endsWith(end) && !f.getFileName().toString().startsWith("."))
          .findFirst();
    }
  }
}
