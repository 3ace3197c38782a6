package org.benchstroke.cli;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardWatchEventKinds;
import java.nio.file.WatchKey;
import java.nio.file.WatchService;
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
    try {
      while (!contains(words)) {
        WatchKey key = watch.poll(LONGEST_WAIT_SECONDS, TimeUnit.SECONDS);
        if (key == null) {
          throw new IllegalStateException("the record did not come to " + words);
        }
        key.pollEvents();
        key.reset();
      }
    } catch (IOException | InterruptedException e) {
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
    try (Stream<Path> files = Files.walk(folder)) {
      Path found = files.filter(f -> f.toString().endsWith(".jsonl")).findFirst().orElse(null);
      return found != null && Files.readString(found).contains(words);
    }
  }
}
