package org.benchstroke.judge;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.benchstroke.Counted;
import org.benchstroke.core.quantity.Numbers;

/** Counts how often a stated 95 % interval holds the truth. One thread. */
public final class Coverage {
  /** Fewer made-up units prove nothing: with 2,000 the share has a standard deviation of 0.5 %. */
  private static final int LEAST = Counted.of(2_000);

  private static final double LOWEST = 93.0;

  private final Map<String, int[]> counts = new TreeMap<>();
  private final List<String> bounds;

  public Coverage() {
    this(List.of());
  }

  /**
   * Where some U are bounds.
   *
   * @param bounds the measures of which it is known that they may be covered by more
   */
  public Coverage(List<String> bounds) {
    this.bounds = bounds;
  }

  /** Whether value ± U of a measure holds the truth. */
  public void add(String name, Measure measure, double truth) {
    add(name, measure, measure.value().orElseThrow(), truth);
  }

  /** The same of a largest value, whose interval is that of its magnitude. */
  public void magnitude(String name, Measure measure, double truth) {
    add(name, measure, Math.abs(measure.value().orElseThrow()), Math.abs(truth));
  }

  private void add(String name, Measure measure, double value, double truth) {
    double half = measure.budget().orElseThrow().expand().half();
    int[] count = counts.computeIfAbsent(name, n -> new int[2]);
    count[0] += Math.abs(value - truth) <= half ? 1 : 0;
    count[1]++;
  }

  private static double share(int[] count) {
    return 100.0 * count[0] / count[1];
  }

  /** Writes the rows of the published page, and fails below 93 % or, but for bounds, above 97 %. */
  public void check(String file, int names) {
    check(file, names, 97.0);
  }

  /** The same where U is wide on purpose: more than 97 % is no mistake there. */
  public void check(String file, int names, double most) {
    String rows = write(file);
    assertThat(counts).as("measures in %s", rows).hasSize(names);
    assertThat(counts)
        .allSatisfy(
            (name, c) -> {
              assertThat(c[1]).as("%s, units", name).isGreaterThanOrEqualTo(LEAST);
              double highest = bounds.contains(name) ? 100.0 : most;
              assertThat(share(c))
                  .as("%s of\n%s", name, rows)
                  .isBetween(
                      LOWEST - Counted.chancePercent(LOWEST, c[1]),
                      highest + Counted.chancePercent(highest, c[1]));
            });
  }

  /** Fails where chance can't explain that fewer than 93 % are held. */
  public void checkAtLeast(String file, int names) {
    String rows = write(file);
    assertThat(counts).as("measures in %s", rows).hasSize(names);
    assertThat(counts)
        .allSatisfy(
            (name, c) -> {
              double chance = 100.0 * 2.0 * Math.sqrt(0.93 * 0.07 / c[1]);
              assertThat(share(c)).as("%s of\n%s", name, rows).isGreaterThan(93.0 - chance);
            });
  }

  /** The same of fewer units of each name, where U may be wide. */
  public void atLeast(String file, int names, int units, double least) {
    String rows = write(file);
    assertThat(counts).as("measures in %s", rows).hasSize(names);
    assertThat(counts)
        .allSatisfy(
            (name, c) -> {
              assertThat(c[1]).as("%s, units", name).isGreaterThanOrEqualTo(units);
              assertThat(share(c))
                  .as("%s of\n%s", name, rows)
                  .isBetween(least - Counted.chancePercent(least, c[1]), 100.0);
            });
  }

  private String write(String file) {
    StringBuilder rows = new StringBuilder();
    counts.forEach(
        (name, c) ->
            rows.append("| ")
                .append(name)
                .append(" | ")
                .append(c[1])
                .append(" | ")
                .append(Numbers.fixed(share(c), 1))
                .append(bounds.contains(name) ? " %, a bound |\n" : " % |\n"));
    try {
      Files.writeString(Path.of("target", file), rows);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return rows.toString();
  }
}
