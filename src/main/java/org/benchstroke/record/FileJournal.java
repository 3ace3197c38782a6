package org.benchstroke.record;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.time.Instant;
import java.util.Optional;
import org.benchstroke.clock.BenchClock;

/**
 * A journal in a file of JSON Lines. Each line is handed to the system as it is written, so the
 * program's death loses nothing. Everything but a sample is forced to the disk before {@link
 * #write} returns; samples are forced behind its back, within a second: a disk that takes its time
 * must not make a gap between two samples.
 */
public final class FileJournal implements Journal {
  private final FileChannel channel;
  private final BenchClock clock;
  private final long origin;
  private final RecordLines lines = new RecordLines();
  private final SampleForcing forcing;

  private FileJournal(FileChannel channel, BenchClock clock) {
    this.channel = channel;
    this.clock = clock;
    this.origin = clock.nanos();
    this.forcing = new SampleForcing(channel);
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
    Optional<IOException> failure = forcing.failure();
    if (failure.isPresent()) {
      throw new IOException(failure.get().getMessage(), failure.get());
    }
    long now = clock.nanos();
    Instant utc = clock.utc();
    String line = lines.write(now - origin, utc, event);
    ByteBuffer bytes = ByteBuffer.wrap((line + "\n").getBytes(StandardCharsets.UTF_8));
    while (bytes.hasRemaining()) {
      channel.write(bytes);
    }
    if (event instanceof Event.Sampled) {
      forcing.due();
    } else {
      channel.force(false);
    }
    return new Entry(lines.number(), now - origin, utc, event);
  }

  @Override
  public void close() throws IOException {
    forcing.close();
    try (channel) {
      channel.force(false);
    }
  }
}
