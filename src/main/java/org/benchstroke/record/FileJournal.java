package org.benchstroke.record;

import java.io.IOException;
import java.nio.file.Path;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import org.benchstroke.core.clock.BenchClock;

/**
 * A journal in a file of JSON Lines. A thread of its own writes and forces the lines in their
 * order: a disk that takes its time must not make a gap between two samples. It fails where the
 * disk is full, takes nothing for ten seconds, or the file was deleted or replaced meanwhile.
 */
public final class FileJournal implements Journal {
  private final BenchClock clock;
  private long origin;
  private final RecordLines lines = new RecordLines();
  private final DiskThread disk;

  private FileJournal(DiskThread disk, BenchClock clock) {
    this.clock = clock;
    this.origin = clock.nanos();
    this.disk = disk;
  }

  /**
   * Begins a new record.
   *
   * @throws IOException if the file exists or can't be made
   */
  public static FileJournal create(Path file, BenchClock clock) throws IOException {
    return on(new DiskThread(RecordDisk.create(file)), clock);
  }

  static FileJournal on(DiskThread disk, BenchClock clock) {
    return new FileJournal(disk, clock);
  }

  @Override
  public long originNanos() {
    return origin;
  }

  @Override
  public Entry write(Optional<StepId> step, Event event) throws IOException {
    long now = clock.nanos();
    Instant utc = clock.utc();
    String line = lines.write(now - origin, utc, step, event) + "\n";
    if (event.betweenSamples()) {
      disk.give(line, !(event instanceof Event.Sampled));
    } else {
      disk.force(line);
    }
    return new Entry(lines.number(), now - origin, utc, step, event);
  }

  @Override
  public void takeOver(List<Entry> earlier) throws IOException {
    for (Entry entry : earlier) {
      disk.give(lines.write(entry.nanos(), entry.utc(), entry.step(), entry.event()) + "\n", false);
    }
    origin = TakenOver.origin(earlier, clock);
    disk.force("");
  }

  @Override
  public void close() throws IOException {
    disk.close();
  }
}
