package org.benchstroke.diagnosis;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.EnumMap;
import java.util.Map;
import java.util.Objects;

/**
 * How likely a sign is seen by cause, counted on simulated units whose fault was known: of so many
 * runs that could show it, so many did. The table is written by the benchmark {@code confusion}; no
 * real units are behind it. Immutable.
 */
public final class Likelihoods {
  /** What a count of nothing still allows: one in a few hundred runs is otherwise. Our choice. */
  private static final double UNCOUNTED = 0.25;

  /** Of a sign that was not counted with a cause. Our choice. */
  private static final double UNKNOWN = 0.02;

  private final Map<Cause, Map<Sign, Count>> counts = new EnumMap<>(Cause.class);

  /**
   * A count.
   *
   * @param seen in so many runs it was seen
   * @param runs of so many that could show it
   */
  public record Count(int seen, int runs) {}

  private Likelihoods() {}

  private static final class Built {
    static final Likelihoods IN = read();
  }

  /** Those that come with the program. */
  static Likelihoods builtIn() {
    return Built.IN;
  }

  /** Those of a table. */
  public static Likelihoods of(Map<Cause, Map<Sign, Count>> counted) {
    Likelihoods table = new Likelihoods();
    counted.forEach((cause, signs) -> table.counts.put(cause, new EnumMap<>(signs)));
    return table;
  }

  private static Likelihoods read() {
    Map<Cause, Map<Sign, Count>> counted = new EnumMap<>(Cause.class);
    try (InputStream in =
            Objects.requireNonNull(Likelihoods.class.getResourceAsStream("likelihoods.csv"));
        BufferedReader lines =
            new BufferedReader(new InputStreamReader(in, StandardCharsets.UTF_8))) {
      for (String line = lines.readLine(); line != null; line = lines.readLine()) {
        String[] cells = line.split(",", -1);
        if (!line.startsWith("#") && cells.length == 4) {
          counted
              .computeIfAbsent(Cause.valueOf(cells[0]), c -> new EnumMap<>(Sign.class))
              .put(
                  Sign.valueOf(cells[1]),
                  new Count(Integer.parseInt(cells[2]), Integer.parseInt(cells[3])));
        }
      }
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return of(counted);
  }

  /** How likely that sign is seen if that is the cause and the run can show it, 0 to 1. */
  double of(Sign sign, Cause cause) {
    Count count = counts.getOrDefault(cause, Map.of()).get(sign);
    if (count == null) {
      return UNKNOWN;
    }
    double likely = (count.seen() + UNCOUNTED) / (count.runs() + 2.0 * UNCOUNTED);
    // Not seen in a run or two says no more than not counted at all.
    return count.seen() == 0 ? Math.min(likely, UNKNOWN) : likely;
  }
}
