package org.benchstroke.core.statistics;

import java.util.ArrayList;
import java.util.Collections;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import org.benchstroke.core.statistics.ControlChart.Signal;
import org.benchstroke.core.statistics.ControlChart.Way;

/**
 * The rules for a point beyond a limit and for runs of points (Western Electric rules and trend
 * rules, NIST/SEMATECH e-Handbook 6.3.2, clause and wording from memory). A run must lie on one
 * side; the point that completes it is the signal.
 */
public enum ChartRule {
  /** Beyond a control limit: of a chart with 3σ limits, beyond 3σ. */
  BEYOND_LIMIT("beyond_limit"),
  /** Two of the last three points beyond 2σ. */
  TWO_OF_THREE("two_of_three_beyond_two_sigma"),
  /** Four of the last five points beyond 1σ. */
  FOUR_OF_FIVE("four_of_five_beyond_one_sigma"),
  /** Eight points in a row on one side of the centre line. */
  EIGHT_ON_ONE_SIDE("eight_on_one_side"),
  /** Six points in a row, each above the one before, or each below. */
  SIX_TRENDING("six_trending"),
  /** Fourteen points in a row, up and down in turn. */
  FOURTEEN_ALTERNATING("fourteen_alternating");

  /** The four rules of the zones; all of them together give a false alarm every 92 points. */
  public static final Set<ChartRule> ZONES =
      Collections.unmodifiableSet(EnumSet.range(BEYOND_LIMIT, EIGHT_ON_ONE_SIDE));

  /** One rule alone, for charts whose points are not independent of one another. */
  public static final Set<ChartRule> LIMIT_ONLY = Set.of(BEYOND_LIMIT);

  private final String id;

  ChartRule(String id) {
    this.id = id;
  }

  /** Its name in files. */
  public String id() {
    return id;
  }

  /** All signals of some rules. */
  static List<Signal> signals(
      Set<ChartRule> rules, List<ControlChart.Point> points, double centre, double sigma) {
    double[] z = points.stream().mapToDouble(p -> (p.value() - centre) / sigma).toArray();
    List<ChartRule> ordered = rules.stream().sorted().toList();
    List<Signal> signals = new ArrayList<>();
    for (int i = 0; i < z.length; i++) {
      ControlChart.Point point = points.get(i);
      for (ChartRule rule : ordered) {
        for (Way way : Way.values()) {
          boolean met = rule == BEYOND_LIMIT ? beyond(point, way) : rule.completedAt(z, i, way);
          if (met) {
            signals.add(new Signal(rule, point.index(), way));
          }
        }
      }
    }
    return signals;
  }

  private static boolean beyond(ControlChart.Point point, Way way) {
    return switch (way) {
      case UP -> point.value() > point.high();
      case DOWN -> point.value() < point.low();
      case BOTH -> false;
    };
  }

  private boolean completedAt(double[] z, int at, Way way) {
    double sign = way == Way.DOWN ? -1.0 : 1.0;
    boolean alternating = this == FOURTEEN_ALTERNATING;
    if (alternating != (way == Way.BOTH)) {
      return false;
    }
    return switch (this) {
      case BEYOND_LIMIT -> false;
      case TWO_OF_THREE -> outside(z, at, sign, 2.0, 2, 3);
      case FOUR_OF_FIVE -> outside(z, at, sign, 1.0, 4, 5);
      case EIGHT_ON_ONE_SIDE -> outside(z, at, sign, 0.0, 8, 8);
      case SIX_TRENDING -> trending(z, at, sign, 6);
      case FOURTEEN_ALTERNATING -> alternating(z, at, 14);
    };
  }

  /** So many of the last ones, this one among them, lie beyond a distance on a side. */
  private static boolean outside(
      double[] z, int at, double sign, double distance, int wanted, int last) {
    if (sign * z[at] <= distance) {
      return false;
    }
    int count = 0;
    for (int i = Math.max(0, at - last + 1); i <= at; i++) {
      count += sign * z[i] > distance ? 1 : 0;
    }
    return count >= wanted;
  }

  private static boolean trending(double[] z, int at, double sign, int length) {
    if (at < length - 1) {
      return false;
    }
    for (int i = at - length + 2; i <= at; i++) {
      if (!(sign * (z[i] - z[i - 1]) > 0.0)) {
        return false;
      }
    }
    return true;
  }

  private static boolean alternating(double[] z, int at, int length) {
    if (at < length - 1) {
      return false;
    }
    for (int i = at - length + 3; i <= at; i++) {
      if (!((z[i] - z[i - 1]) * (z[i - 1] - z[i - 2]) < 0.0)) {
        return false;
      }
    }
    return true;
  }
}
