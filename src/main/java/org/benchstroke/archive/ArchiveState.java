package org.benchstroke.archive;

import java.time.Instant;
import java.util.List;
import java.util.Optional;

/**
 * What an archive holds.
 *
 * @param version of its tables
 * @param runs how many
 * @param flawed how many of them are of records that are damaged, changed or wrongly amended
 * @param first when the first of them began
 * @param last when the last of them began
 * @param keys of benches that sealed them
 */
public record ArchiveState(
    int version,
    long runs,
    long flawed,
    Optional<Instant> first,
    Optional<Instant> last,
    List<KeyOfBench> keys) {
  public ArchiveState {
    keys = List.copyOf(keys);
  }

  /**
   * A key and the bench by whose name it was first seen.
   *
   * @param fingerprint of its public half
   * @param bench the bench's name
   */
  public record KeyOfBench(String fingerprint, String bench) {}
}
