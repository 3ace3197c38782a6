package org.benchstroke.app.history;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import org.benchstroke.archive.ArchiveFault;
import org.benchstroke.archive.ArchivedRun.Heading;
import org.benchstroke.archive.ShopHistory;
import org.benchstroke.core.statistics.Yield;

/**
 * How many units passed at their first whole run. Immutable.
 *
 * @param by by what jobs are told apart
 * @param lines one for each group, by its name
 * @param all of all jobs; empty if there is none
 */
public record Yields(By by, List<Line> lines, Optional<Yield> all) {
  /** The interval holds the long-run share in so many of 100 cases. */
  public static final double COVERAGE = 0.95;

  private static final int MONTH = 7;

  /** By what jobs are told apart. */
  public enum By {
    TYPE,
    MONTH,
    BENCH,
    OPERATOR;

    private String of(Heading run) {
      return switch (this) {
        case TYPE -> run.facts().unitType();
        case MONTH -> run.facts().begun().toString().substring(0, Yields.MONTH);
        case BENCH -> run.facts().bench();
        case OPERATOR -> run.labels().operator();
      };
    }

    /** As it is typed. */
    public String key() {
      return name().toLowerCase(Locale.ROOT);
    }
  }

  /**
   * A group.
   *
   * @param name the type, the month, the bench or the operator
   * @param yield its share
   */
  public record Line(String name, Yield yield) {}

  public Yields {
    lines = List.copyOf(lines);
  }

  /** Of some runs. */
  public static Yields of(ShopHistory history, By by) throws ArchiveFault {
    List<Heading> found = history.asFound();
    Map<String, List<Heading>> groups = new TreeMap<>();
    found.forEach(run -> groups.computeIfAbsent(by.of(run), g -> new ArrayList<>()).add(run));
    List<Line> lines = new ArrayList<>();
    groups.forEach((name, group) -> yieldOf(group).ifPresent(y -> lines.add(new Line(name, y))));
    return new Yields(by, lines, yieldOf(found));
  }

  private static Optional<Yield> yieldOf(List<Heading> runs) {
    int passed = (int) runs.stream().filter(run -> run.result().passed()).count();
    return Yield.of(passed, runs.size(), COVERAGE) instanceof Yield yield
        ? Optional.of(yield)
        : Optional.empty();
  }
}
