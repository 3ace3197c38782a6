package org.benchstroke.judge;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Stream;
import org.benchstroke.record.Entry;
import org.benchstroke.record.Event;
import org.benchstroke.record.RunFault;
import org.benchstroke.record.RunRecord;

/**
 * Lines of a record that belong together, in order. Here alone they are looked through by their
 * kind. Immutable.
 */
public final class Lines {
  /** None at all. */
  public static final Lines NONE = new Lines(List.of());

  private final List<Entry> entries;

  /** Made when it is first asked for; made twice, it is the same. */
  private Optional<Map<String, List<Event.Sampled>>> readings;

  /** Of a list that nobody changes any more. */
  Lines(List<Entry> entries) {
    this(entries, Optional.empty());
  }

  private Lines(List<Entry> entries, Optional<Map<String, List<Event.Sampled>>> readings) {
    this.entries = entries;
    this.readings = readings;
  }

  /** All of a record. */
  public static Lines of(RunRecord record) {
    return new Lines(record.entries(), Optional.of(record.readings()));
  }

  /** Those of passages that follow one another. */
  public static Lines of(List<Passage> passages) {
    return new Lines(passages.stream().flatMap(p -> p.entries().stream()).toList());
  }

  /** What stands outside of all tests. */
  static Lines betweenTests(RunRecord record) {
    List<Entry> between = new ArrayList<>();
    boolean testing = false;
    for (Entry entry : record.entries()) {
      testing |= entry.event() instanceof Event.TestBegan;
      testing &= !(entry.event() instanceof Event.TestEnded);
      if (!testing) {
        between.add(entry);
      }
    }
    return new Lines(between);
  }

  List<Entry> entries() {
    return entries;
  }

  public boolean isEmpty() {
    return entries.isEmpty();
  }

  /** What there is of one kind. */
  public <E extends Event> List<E> all(Class<E> kind) {
    // A plain loop: a record may have a hundred thousand lines.
    Stream.Builder<E> found = Stream.builder();
    for (Entry entry : entries) {
      if (kind.isInstance(entry.event())) {
        found.add(kind.cast(entry.event()));
      }
    }
    return found.build().toList();
  }

  /** The readings of a channel. */
  public List<Event.Sampled> readings(String channel) {
    Optional<Map<String, List<Event.Sampled>>> known = readings;
    if (known.isEmpty()) {
      known = Optional.of(RunRecord.readings(entries));
      readings = known;
    }
    return known.get().getOrDefault(channel, List.of());
  }

  /** What the first fault of this kind tells; empty if there is none. */
  public Optional<String> fault(RunFault fault) {
    return all(Event.Faulted.class).stream()
        .filter(f -> f.fault() == fault)
        .map(Event.Faulted::detail)
        .findFirst();
  }
}
