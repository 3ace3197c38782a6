package org.benchstroke.record;

import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;

/**
 * A record as it was read: its lines, and what was wrong with the file. Immutable.
 *
 * @param entries the lines that are whole and chained, in order; the first is {@link Event.Opened}
 * @param flaws what the reader met: "torn last line", "broken chain at line 17"; empty if sound
 */
public record RunRecord(List<Entry> entries, List<String> flaws) {
  public RunRecord {
    entries = List.copyOf(entries);
    flaws = List.copyOf(flaws);
    if (entries.isEmpty() || !(entries.get(0).event() instanceof Event.Opened)) {
      throw new IllegalArgumentException("a record begins with its opening line");
    }
  }

  public Event.Opened opened() {
    return (Event.Opened) entries.get(0).event();
  }

  /** The closing line; empty means that the run was interrupted. */
  public Optional<Event.Closed> closed() {
    // It is the last one of a sound record, which may be long.
    for (int i = entries.size() - 1; i >= 0; i--) {
      if (entries.get(i).event() instanceof Event.Closed closed) {
        return Optional.of(closed);
      }
    }
    return Optional.empty();
  }

  /** All events of one kind, in order. */
  public <E extends Event> Stream<E> events(Class<E> kind) {
    return entries.stream()
        .mapMulti(
            (entry, found) -> {
              if (kind.isInstance(entry.event())) {
                found.accept(kind.cast(entry.event()));
              }
            });
  }
}
