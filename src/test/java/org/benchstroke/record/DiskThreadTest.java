package org.benchstroke.record;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import org.benchstroke.core.clock.VirtualClock;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** A record on a disk that is slow, hangs, is full, or loses its file. */
@Timeout(60)
class DiskThreadTest {
  private static final Event SAMPLE =
      new Event.Sampled("position", 50.0, "%", "good", "50", 1L, 2L);
  private static final List<Event> BETWEEN_SAMPLES =
      List.of(
          SAMPLE,
          new Event.Commanded(50.0, 12.0, 12.0, 1L, 2L),
          new Event.Disturbed("open loop", 0.0, true, 1L, 2L),
          new Event.Rested("travel 50 up", Leg.ARRIVAL, 50.0, "up", 1, true, true, 1L, 2L, 0.05),
          new Event.Watched("hold 50", 50.0, true, "", 1L, 2L),
          new Event.Faulted(RunFault.GAP, "", "no sample"),
          new Event.Powered(false, "relay"));
  private static final Event ENDED = new Event.TestEnded(0, "switches", 1, "complete", "");

  @TempDir Path folder;

  /** A disk on which every force waits until it may go on. */
  private static final class SlowDisk implements DiskThread.Disk {
    private final List<String> lines = Collections.synchronizedList(new ArrayList<>());
    private final CountDownLatch mayGoOn = new CountDownLatch(1);
    private volatile Optional<IOException> full = Optional.empty();

    @Override
    public void write(String line) throws IOException {
      if (full.isPresent()) {
        throw full.get();
      }
      lines.add(line);
    }

    @Override
    public void force() throws IOException {
      try {
        mayGoOn.await();
      } catch (InterruptedException e) {
        throw new IOException(e);
      }
    }

    @Override
    public String name() {
      return "records/one.jsonl";
    }

    @Override
    public void close() {
      // Nothing is held.
    }
  }

  @Test
  void whatHappensBetweenSamplesDoesNotWaitForTheDisk() throws Exception {
    SlowDisk disk = new SlowDisk();
    DiskThread thread = new DiskThread(disk, TimeUnit.HOURS.toNanos(1), TimeUnit.HOURS.toNanos(1));
    try (FileJournal journal = journal(thread)) {
      for (int i = 0; i < 300; i++) {
        for (Event event : BETWEEN_SAMPLES) {
          journal.write(event);
        }
      }
      // Not one force has returned; the end of a test waits for all of them.
      CompletableFuture<Entry> ended = CompletableFuture.supplyAsync(() -> write(journal, ENDED));
      assertThat(ended).isNotDone();
      disk.mayGoOn.countDown();
      assertThat(ended.get().number()).isEqualTo(300 * BETWEEN_SAMPLES.size() + 1);
      Path file = Files.write(folder.resolve("record.jsonl"), whole(disk.lines));
      RecordLines lines = new RecordLines();
      for (String line : Files.readAllLines(file)) {
        lines.read(line);
      }
      assertThat(lines.number()).isEqualTo(ended.get().number());
    }
  }

  /** With nothing allowed to lag, a sample waits like all else. */
  @Test
  void aDiskThatLagsTooFarIsWaitedFor() throws Exception {
    SlowDisk disk = new SlowDisk();
    try (FileJournal journal =
        journal(new DiskThread(disk, 0, TimeUnit.MILLISECONDS.toNanos(100)))) {
      assertThatThrownBy(() -> journal.write(SAMPLE))
          .isInstanceOf(IOException.class)
          .hasMessageContaining("records/one.jsonl: the disk took no data for");
      disk.mayGoOn.countDown();
    }
  }

  @ParameterizedTest
  @ValueSource(booleans = {true, false})
  void aFullDiskIsToldWithTheFileAndNothingMoreIsTaken(boolean waits) throws Exception {
    SlowDisk disk = new SlowDisk();
    disk.mayGoOn.countDown();
    try (FileJournal journal = journal(new DiskThread(disk))) {
      journal.write(ENDED);
      disk.full = Optional.of(new IOException("No space left on device"));
      // A sample does not wait: one of those that follow is told.
      Event event = waits ? ENDED : SAMPLE;
      for (int attempt = 0; attempt < 2; attempt++) {
        assertThatThrownBy(
                () -> {
                  while (true) {
                    journal.write(event);
                  }
                })
            .isInstanceOf(IOException.class)
            .hasMessage("records/one.jsonl: No space left on device");
      }
      assertThat(disk.lines).hasSize(1);
    }
  }

  @Test
  void aRecordThatIsDeletedIsMissedAtOnce() throws Exception {
    Path file = folder.resolve("gone.jsonl");
    try (FileJournal journal = FileJournal.create(file, new VirtualClock(Instant.EPOCH))) {
      journal.write(ENDED);
      Files.delete(file);
      assertThatThrownBy(() -> journal.write(ENDED))
          .isInstanceOf(IOException.class)
          .hasMessage(file + ": it was deleted or moved away");
    }
  }

  @Test
  void soIsOneInWhosePlaceAnotherWasPut() throws Exception {
    Path file = folder.resolve("record.jsonl");
    try (FileJournal journal = FileJournal.create(file, new VirtualClock(Instant.EPOCH))) {
      journal.write(ENDED);
      Path other = Files.writeString(folder.resolve("other"), "another\n");
      Files.move(other, file, StandardCopyOption.REPLACE_EXISTING);
      assertThatThrownBy(() -> journal.write(ENDED))
          .isInstanceOf(IOException.class)
          .hasMessage(file + ": another file was put in its place");
    }
    assertThat(Files.readString(file)).isEqualTo("another\n");
  }

  private static FileJournal journal(DiskThread thread) {
    return FileJournal.on(thread, new VirtualClock(Instant.EPOCH));
  }

  private static Entry write(FileJournal journal, Event event) {
    try {
      return journal.write(event);
    } catch (IOException e) {
      throw new IllegalStateException(e);
    }
  }

  private static byte[] whole(List<String> lines) {
    return String.join("", lines).getBytes(StandardCharsets.UTF_8);
  }
}
