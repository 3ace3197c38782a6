package org.benchstroke.app.history;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.benchstroke.app.WrongRequest;
import org.benchstroke.archive.Archive;
import org.benchstroke.archive.RunFilter;
import org.benchstroke.archive.ShopHistory;

/**
 * The runs that a statistic is of, as a person chose them; real ones or simulated ones, never both.
 * Immutable.
 *
 * @param serial serial number of the unit
 * @param type name of the unit type
 * @param bench name of the bench
 * @param operator who ran them
 * @param since begun on this day or later, as it was typed
 * @param until begun on this day or earlier, as it was typed
 * @param simulated whether simulated runs are asked for instead of real ones
 */
public record ChosenRuns(
    Optional<String> serial,
    Optional<String> type,
    Optional<String> bench,
    Optional<String> operator,
    Optional<String> since,
    Optional<String> until,
    boolean simulated) {

  /**
   * For the archive.
   *
   * @throws WrongRequest if a day is none
   */
  public RunFilter filter(Naming naming) throws WrongRequest {
    return new RunFilter(
        serial,
        Optional.empty(),
        type,
        Optional.empty(),
        operator,
        bench,
        Days.from(naming.of("since"), since),
        Days.before(naming.of("until"), until));
  }

  /** Their history. */
  public ShopHistory of(Archive archive, Naming naming) throws WrongRequest {
    return new ShopHistory(archive, filter(naming), simulated);
  }

  /** In words: "type Q, since 2026-01-01"; marked where they are simulated. */
  public String words() {
    List<String> all = new ArrayList<>();
    serial.ifPresent(s -> all.add("serial number " + s));
    type.ifPresent(s -> all.add("type " + s));
    bench.ifPresent(s -> all.add("bench " + s));
    operator.ifPresent(s -> all.add("operator " + s));
    since.ifPresent(s -> all.add("since " + s));
    until.ifPresent(s -> all.add("until " + s));
    String of = all.isEmpty() ? "all runs" : String.join(", ", all);
    return simulated ? "SIMULATED runs; " + of : of;
  }
}
