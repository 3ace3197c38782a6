package org.benchstroke.web.access;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.FileTime;
import java.util.Optional;
import java.util.concurrent.TimeUnit;
import org.benchstroke.core.clock.BenchClock;
import org.benchstroke.core.toml.FileMistakes;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * Who may sign in now: the operators file is read again when it has changed, so that somebody who
 * is added, removed or given another PIN needs no restart. Where there was a file, there is one
 * from then on: one that is gone or spoilt leaves what was read last in force. Any thread.
 */
public final class Operators {
  private static final Logger LOG = LoggerFactory.getLogger(Operators.class);
  private static final long LOOKED_NANOS = TimeUnit.SECONDS.toNanos(1);
  private static final Stamp ABSENT = new Stamp(FileTime.fromMillis(0), -1);

  private final Optional<Path> path;
  private final BenchClock clock;
  private Stamp seen = ABSENT;
  private long lookedNanos;
  private Optional<OperatorsFile> file = Optional.empty();

  private record Stamp(FileTime changed, long bytes) {}

  /**
   * Reads the file, if there is one.
   *
   * @param path where it is or would be; empty where there can be none
   * @throws FileMistakes with every mistake in it
   */
  public Operators(Optional<Path> path, BenchClock clock) throws FileMistakes {
    this.path = path;
    this.clock = clock;
    this.lookedNanos = clock.nanos();
    this.seen = stamp();
    if (!seen.equals(ABSENT)) {
      file = Optional.of(OperatorsFile.read(path.orElseThrow()));
    }
  }

  /** Those of the file; empty if there never was one, and then nobody has a PIN. */
  public synchronized Optional<OperatorsFile> now() {
    long now = clock.nanos();
    if (now - lookedNanos >= LOOKED_NANOS) {
      lookedNanos = now;
      look();
    }
    return file;
  }

  private void look() {
    Stamp there = stamp();
    if (there.equals(seen) || there.equals(ABSENT)) {
      return;
    }
    seen = there;
    try {
      file = Optional.of(OperatorsFile.read(path.orElseThrow()));
    } catch (FileMistakes e) {
      LOG.warn("the operators file has changed and is left aside:\n{}", e.getMessage());
    }
  }

  private Stamp stamp() {
    if (path.isEmpty()) {
      return ABSENT;
    }
    try {
      return new Stamp(Files.getLastModifiedTime(path.get()), Files.size(path.get()));
    } catch (IOException e) {
      return ABSENT;
    }
  }
}
