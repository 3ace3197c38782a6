package org.benchstroke.archive;

import java.time.Instant;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;

/**
 * What the archive keeps of a line of a bench's own checks. Immutable.
 *
 * @param digest SHA-256 of the line
 * @param folder where its file was when it was read
 * @param bench the bench's name
 * @param simulated whether the bench was simulated
 * @param at when, by the wall clock
 * @param person who checked, answered or amended
 * @param from where the readings are from, or what the note or the amendment says
 * @param note whether it answers what was no good before it
 * @param newBaseline whether readings before it are no longer compared with
 * @param amends the digest of the line that it amends; empty unless it is an amendment
 * @param readings by the name of the reference
 * @param line as it stands in the file
 */
public record ArchivedCheck(
    String digest,
    String folder,
    String bench,
    boolean simulated,
    Instant at,
    String person,
    String from,
    boolean note,
    boolean newBaseline,
    Optional<String> amends,
    Map<String, Double> readings,
    String line) {
  public ArchivedCheck {
    readings = Collections.unmodifiableMap(new LinkedHashMap<>(readings));
  }
}
