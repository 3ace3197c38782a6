package org.benchstroke.run;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.Consumer;
import org.benchstroke.core.clock.BenchClock;
import org.benchstroke.procedure.Expansion;
import org.benchstroke.record.Entry;
import org.benchstroke.record.Event;
import org.benchstroke.record.Journal;
import org.benchstroke.record.StepId;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/** The journal first, then whoever watches. The runner's thread only. */
final class RunLog {
  private static final Logger LOG = LoggerFactory.getLogger(RunLog.class);

  private final Journal journal;
  private final BenchClock clock;
  private final List<Spectator> spectators;
  private Optional<StepId> step = Optional.empty();
  private long heldNanos;

  RunLog(Journal journal, BenchClock clock, List<Spectator> spectators) {
    this.journal = journal;
    this.clock = clock;
    this.spectators = new ArrayList<>(spectators);
  }

  /** Bench time of an instant since the record was opened. */
  long since(long nanos) {
    return nanos - journal.originNanos();
  }

  /** What is written from now on belongs to this step. */
  void begin(StepId id) {
    step = Optional.of(id);
  }

  /** The step that was begun is done once more, from its beginning. */
  void again() {
    step = step.map(id -> id.take(id.take() + 1));
  }

  /** What is written from now on belongs to no step. */
  void endStep() {
    step = Optional.empty();
  }

  /** What is to be run, for whoever watches; it stands in the record by its files. */
  void plan(Expansion plan) {
    tell(spectator -> spectator.planned(plan));
  }

  /**
   * Writes an event.
   *
   * @throws UncheckedIOException if the journal fails: nothing may then go on but making safe
   */
  void write(Event event) {
    long began = clock.nanos();
    Entry entry;
    try {
      entry = journal.write(step, event);
    } catch (IOException e) {
      throw new UncheckedIOException("the record can't be written: " + e.getMessage(), e);
    }
    tell(spectator -> spectator.happened(entry));
    heldNanos += clock.nanos() - began;
  }

  /**
   * Takes over what an interrupted run left.
   *
   * @throws UncheckedIOException if the journal fails
   */
  void takeOver(Resumption resumed) {
    write(resumed.from());
    try {
      journal.takeOver(resumed.lines());
    } catch (IOException e) {
      throw new UncheckedIOException("the record can't be written: " + e.getMessage(), e);
    }
  }

  /** How long writing and showing have held the runner so far, ns of bench time. */
  long heldNanos() {
    return heldNanos;
  }

  void progress(Progress progress) {
    long began = clock.nanos();
    tell(spectator -> spectator.progressed(progress));
    heldNanos += clock.nanos() - began;
  }

  private void tell(Consumer<Spectator> message) {
    spectators.removeIf(
        spectator -> {
          try {
            message.accept(spectator);
            return false;
          } catch (RuntimeException | Error e) {
            LOG.warn("a spectator failed and was detached: {}", e.toString());
            return true;
          }
        });
  }
}
