package org.benchstroke.core.statistics;

import java.util.List;
import java.util.TreeSet;
import java.util.stream.IntStream;

/** What the limits of a chart are computed from, apart from what is watched by them. Immutable. */
public sealed interface Baseline {
  /**
   * The fewest points that give limits: as many as the worked example of the NIST/SEMATECH
   * e-Handbook 6.3.2.2 has. Twenty to twenty-five are better (common practice, no source): limits
   * from ten points alarm more often than they claim to.
   */
  int FEWEST = 10;

  /**
   * The first points.
   *
   * @param count how many; fewer than {@link #FEWEST} give no limits
   */
  record First(int count) implements Baseline {}

  /**
   * A stated set of points: what somebody looked at and accepted.
   *
   * @param indices from 0, each once, rising
   */
  record Stated(List<Integer> indices) implements Baseline {
    public Stated {
      indices = List.copyOf(new TreeSet<>(indices));
      if (!indices.isEmpty() && indices.get(0) < 0) {
        throw new IllegalArgumentException("points are counted from 0, not from " + indices.get(0));
      }
    }
  }

  /**
   * Known from elsewhere: a target and the deviation of earlier data.
   *
   * @param centre the mean of a value
   * @param sigma its standard deviation, above 0
   */
  record Known(double centre, double sigma) implements Baseline {
    public Known {
      if (!Double.isFinite(centre) || !(sigma > 0.0) || Double.isInfinite(sigma)) {
        throw new IllegalArgumentException(
            "a known baseline has a centre and a deviation above 0, not " + centre + ", " + sigma);
      }
    }
  }

  /** The points among so many that belong to it; none of a known one. */
  private List<Integer> among(int size) {
    if (this instanceof First first) {
      return IntStream.range(0, Math.min(first.count(), size)).boxed().toList();
    }
    if (this instanceof Stated stated) {
      return stated.indices().stream().filter(i -> i < size).toList();
    }
    return List.of();
  }

  /** As flags, one for each point. */
  default boolean[] flags(int size) {
    boolean[] flags = new boolean[size];
    among(size).forEach(i -> flags[i] = true);
    return flags;
  }

  /** How many points it must have before it gives limits; 0 of a known one. */
  default int needs() {
    if (this instanceof First first) {
      return Math.max(FEWEST, first.count());
    }
    if (this instanceof Stated stated) {
      return Math.max(FEWEST, stated.indices().size());
    }
    return 0;
  }
}
