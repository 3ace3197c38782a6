package org.benchstroke.record;

import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.Collections;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.stream.Stream;

/** A record as it was read: its lines, and what was wrong with the file. Immutable. */
public final class RunRecord {
  private final List<Entry> entries;
  private final List<String> flaws;
  private final Optional<RecordDigest> digest;
  private final Optional<Seal> seal;
  private final Amendments amendments;

  /** A record may have a hundred thousand lines, and is asked for a few of them again and again. */
  private final Map<Class<?>, List<Event>> byKind = new HashMap<>();

  private final Map<String, List<Event.Sampled>> byChannel;

  /** Of these lines, which no file holds yet. */
  public RunRecord(List<Entry> entries, List<String> flaws) {
    this(entries, flaws, Optional.empty(), Optional.empty(), Amendments.NONE);
  }

  /**
   * Of these lines.
   *
   * @param entries the lines that are whole and chained, in order; the first is {@link
   *     Event.Opened}
   * @param flaws what the reader met: "torn last line", "broken chain at line 17"; empty if sound
   * @param digest of the file that holds them; empty if none does
   * @param seal of that file; empty if there is none
   * @param amendments beside that file
   * @throws IllegalArgumentException if there is no opening line
   */
  RunRecord(
      List<Entry> entries,
      List<String> flaws,
      Optional<RecordDigest> digest,
      Optional<Seal> seal,
      Amendments amendments) {
    this.entries = List.copyOf(entries);
    this.flaws = List.copyOf(flaws);
    this.digest = digest;
    this.seal = seal;
    this.amendments = amendments;
    if (entries.isEmpty() || !(entries.get(0).event() instanceof Event.Opened)) {
      throw new IllegalArgumentException("a record begins with its opening line");
    }
    for (Entry entry : this.entries) {
      byKind.computeIfAbsent(entry.event().getClass(), k -> new ArrayList<>()).add(entry.event());
    }
    this.byChannel = readings(this.entries);
  }

  /** The readings among some lines, by their channel. */
  public static Map<String, List<Event.Sampled>> readings(List<Entry> entries) {
    Map<String, List<Event.Sampled>> found = new HashMap<>();
    for (Entry entry : entries) {
      if (entry.event() instanceof Event.Sampled sampled) {
        found.computeIfAbsent(sampled.channel(), each -> new ArrayList<>()).add(sampled);
      }
    }
    found.replaceAll((each, list) -> Collections.unmodifiableList(list));
    return Collections.unmodifiableMap(found);
  }

  /** All readings, by their channel. */
  public Map<String, List<Event.Sampled>> readings() {
    return byChannel;
  }

  /** The lines that are whole and chained, in order. */
  public List<Entry> entries() {
    return entries;
  }

  /** What the reader met; empty if the file was sound. */
  public List<String> flaws() {
    return flaws;
  }

  /** Of the file that it was read from or written to; empty if there is none. */
  public Optional<RecordDigest> digest() {
    return digest;
  }

  /** Of the file that it was read from; empty if there is none. */
  public Optional<Seal> seal() {
    return seal;
  }

  /** What was amended beside the file that it was read from. */
  public Amendments amendments() {
    return amendments;
  }

  /** What a label says, as amended; empty if nothing was typed. */
  public String label(Label label) {
    return amendments.now(label, label.written(this));
  }

  /** Why what was read can't be what was written, a sentence each; empty if nothing says so. */
  public List<String> doubts() {
    List<String> doubts = new ArrayList<>();
    seal.filter(s -> s.state() == Seal.State.BROKEN)
        .ifPresent(s -> doubts.add("the record's seal is broken: " + s.detail()));
    amendments
        .flaws()
        .forEach(flaw -> doubts.add("an amendment of the record does not hold: " + flaw));
    return doubts;
  }

  public Event.Opened opened() {
    return (Event.Opened) entries.get(0).event();
  }

  /** How far local time was ahead of UTC where the run was made. */
  public ZoneOffset offset() {
    return ZoneOffset.of(opened().utcOffset());
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
    return byKind.getOrDefault(kind, List.of()).stream().map(kind::cast);
  }

  /** By what it says, wherever it is kept. */
  @Override
  public boolean equals(Object other) {
    return other instanceof RunRecord r && entries.equals(r.entries) && flaws.equals(r.flaws);
  }

  @Override
  public int hashCode() {
    return Objects.hash(entries, flaws);
  }
}
