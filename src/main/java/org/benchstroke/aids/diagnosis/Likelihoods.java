package org.benchstroke.aids.diagnosis;

import static java.util.stream.Collectors.toSet;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.EnumMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;

/**
 * How likely a sign is seen by cause, counted on simulated units whose fault was known: of so many
 * runs that could show it, so many did. Each cause is counted by kinds: how large it was, which
 * form it had, on which bench, for a fault three times as large shows itself otherwise. The table
 * is written by the benchmark {@code confusion}; no real units are behind it. Immutable.
 */
public final class Likelihoods {
  /** What a count of nothing still allows. Our choice. */
  private static final double UNCOUNTED = 0.25;

  /** Of a sign that was not counted with a cause. Our choice. */
  private static final double UNKNOWN = 0.02;

  /** No sign is seen more rarely with any cause, however often it was not. Our choice. */
  private static final double LEAST = 0.002;

  /** A kind is taken for one like all of its cause with the weight of so many runs. Our choice. */
  private static final double LIKE_ITS_CAUSE = 1.0;

  private final Map<Kind, Map<Sign, Count>> counts = new LinkedHashMap<>();
  private final Map<Cause, Map<Sign, Count>> pooled = new EnumMap<>(Cause.class);

  /**
   * A count.
   *
   * @param seen in so many runs it was seen
   * @param runs of so many that could show it
   */
  public record Count(int seen, int runs) {
    /** Both together. */
    public Count plus(Count other) {
      return new Count(seen + other.seen, runs + other.runs);
    }
  }

  /**
   * A kind of a cause.
   *
   * @param cause the cause
   * @param words how large, and in which form
   * @param loopMeter whether the bench had a loop meter
   */
  public record Kind(Cause cause, String words, boolean loopMeter) {}

  private Likelihoods(Map<Kind, Map<Sign, Count>> counted) {
    counted.forEach(
        (kind, signs) -> {
          counts.put(kind, new EnumMap<>(signs));
          Map<Sign, Count> sums =
              pooled.computeIfAbsent(kind.cause(), c -> new EnumMap<>(Sign.class));
          signs.forEach((sign, count) -> sums.merge(sign, count, Count::plus));
        });
  }

  private static final class Built {
    static final Likelihoods IN = read();
  }

  /** Those that come with the program. */
  public static Likelihoods builtIn() {
    return Built.IN;
  }

  /** Those of a table. */
  public static Likelihoods of(Map<Kind, Map<Sign, Count>> counted) {
    return new Likelihoods(counted);
  }

  private static Likelihoods read() {
    Map<Kind, Map<Sign, Count>> counted = new LinkedHashMap<>();
    try (InputStream in =
            Objects.requireNonNull(Likelihoods.class.getResourceAsStream("likelihoods.csv"));
        BufferedReader lines =
            new BufferedReader(new InputStreamReader(in, StandardCharsets.UTF_8))) {
      for (String line = lines.readLine(); line != null; line = lines.readLine()) {
        String[] cells = line.split(";", -1);
        if (!line.startsWith("#") && cells.length == 6) {
          counted
              .computeIfAbsent(
                  new Kind(Cause.valueOf(cells[0]), cells[1], Boolean.parseBoolean(cells[2])),
                  k -> new EnumMap<>(Sign.class))
              .put(
                  Sign.valueOf(cells[3]),
                  new Count(Integer.parseInt(cells[4]), Integer.parseInt(cells[5])));
        }
      }
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return of(counted);
  }

  /** The kinds that were counted; of a cause that ends a run by the loop meter, those without. */
  List<Kind> kinds(boolean loopMeter) {
    Set<Cause> told =
        counts.keySet().stream().filter(k -> !k.loopMeter()).map(Kind::cause).collect(toSet());
    return counts.keySet().stream()
        .filter(k -> k.loopMeter() == loopMeter || !told.contains(k.cause()))
        .toList();
  }

  /** How likely that sign is seen of that kind if the run can show it, 0 to 1. */
  double of(Sign sign, Kind kind) {
    double usual = of(sign, kind.cause());
    Count count = counts.getOrDefault(kind, Map.of()).get(sign);
    return count == null
        ? usual
        : within((count.seen() + LIKE_ITS_CAUSE * usual) / (count.runs() + LIKE_ITS_CAUSE));
  }

  /** Likewise of all kinds of a cause together. */
  double of(Sign sign, Cause cause) {
    Count count = pooled.getOrDefault(cause, Map.of()).get(sign);
    if (count == null) {
      return UNKNOWN;
    }
    double likely = (count.seen() + UNCOUNTED) / (count.runs() + 2.0 * UNCOUNTED);
    // Not seen in a run or two says no more than not counted at all.
    return within(count.seen() == 0 ? Math.min(likely, UNKNOWN) : likely);
  }

  private static double within(double likely) {
    return Math.max(LEAST, Math.min(1.0 - LEAST, likely));
  }
}
