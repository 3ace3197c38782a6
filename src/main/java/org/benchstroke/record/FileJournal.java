package org.benchstroke.record;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.time.Instant;
import org.benchstroke.clock.BenchClock;

/**
 * A journal in a file of JSON Lines. Each line is handed to the system as it is written, so the
 * program's death loses nothing; it is forced to the disk at once, a sample within a second.
 */
public final class FileJournal implements Journal {
  private static final double SAMPLE_LAG_WALL_NANOS = 1e9;

  private final FileChannel channel;
  private final BenchClock clock;
  private final long origin;
  private final RecordLines lines = new RecordLines();
  private long forcedAt;

  private FileJournal(FileChannel channel, BenchClock clock) {
    this.channel = channel;
    this.clock = clock;
    this.origin = clock.nanos();
    this.forcedAt = origin;
  }

  /**
   * Begins a new record.
   *
   * @throws IOException if the file exists or can't be made
   */
  public static FileJournal create(Path file, BenchClock clock) throws IOException {
    Path folder = file.toAbsolutePath().getParent();
    Files.createDirectories(folder);
    return new FileJournal(
        FileChannel.open(file, StandardOpenOption.CREATE_NEW, StandardOpenOption.WRITE), clock);
  }

  @Override
  public long originNanos() {
    return origin;
  }

  @Override
  public Entry write(Event event) throws IOException {
    long now = clock.nanos();
    Instant utc = clock.utc();
    String line = lines.write(now - origin, utc, event);
    ByteBuffer bytes = ByteBuffer.wrap((line + "\n").getBytes(StandardCharsets.UTF_8));
    while (bytes.hasRemaining()) {
      channel.write(bytes);
    }
    boolean sample = event instanceof Event.Sampled;
    if (!sample || now - forcedAt >= SAMPLE_LAG_WALL_NANOS * clock.scale()) {
      channel.force(false);
      forcedAt = now;
    }
    return new Entry(lines.number(), now - origin, utc, event);
  }

  @Override
  public void close() throws IOException {
    channel.close();
  }
}
