package org.benchstroke.record;

import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.benchstroke.core.clock.BenchClock;

/** A journal that is kept in memory: for simulations by the thousand, never for a real unit. */
public final class MemoryJournal implements Journal {
  private final BenchClock clock;
  private long origin;
  private final List<Entry> entries = new ArrayList<>();

  public MemoryJournal(BenchClock clock) {
    this.clock = clock;
    this.origin = clock.nanos();
  }

  @Override
  public long originNanos() {
    return origin;
  }

  @Override
  public Entry write(Optional<StepId> step, Event event) {
    Instant utc = clock.utc();
    Entry entry = new Entry(entries.size() + 1L, clock.nanos() - origin, utc, step, event);
    entries.add(entry);
    return entry;
  }

  @Override
  public void takeOver(List<Entry> earlier) {
    for (Entry entry : earlier) {
      entries.add(
          new Entry(entries.size() + 1L, entry.nanos(), entry.utc(), entry.step(), entry.event()));
    }
    origin = TakenOver.origin(earlier, clock);
  }

  @Override
  public Entry write(Event event) {
    return write(Optional.empty(), event);
  }

  /** What has been written so far, as a sound record. */
  public RunRecord record() {
    return new RunRecord(entries, List.of());
  }

  @Override
  public void close() {
    // Nothing is held.
  }
}
