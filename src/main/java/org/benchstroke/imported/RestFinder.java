package org.benchstroke.imported;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.benchstroke.bench.BenchFile;
import org.benchstroke.core.analysis.RestRule;
import org.benchstroke.core.analysis.Spread;
import org.benchstroke.core.quantity.Current;
import org.benchstroke.unit.Practice;
import org.benchstroke.unit.UnitType;

/** Finds where the unit came to rest on each plateau, by the rest rule of a run. One thread. */
final class RestFinder {
  private final UnitType unit;
  private final Positions positions;
  private final RestRule rule;
  private final double noisePercent;
  private final double periodSeconds;

  /**
   * How a plateau ended.
   *
   * @param settled whether the rest rule was met in time
   * @param clean whether the approach was one-way
   * @param fromSeconds start of the quiet window, or of the plateau
   * @param toSeconds its end
   */
  record Found(boolean settled, boolean clean, double fromSeconds, double toSeconds) {}

  RestFinder(BenchFile bench, UnitType unit, Positions positions, Plateau first) {
    this.unit = unit;
    this.positions = positions;
    this.noisePercent = noise(unit, positions, first);
    double period = bench.samplePeriodSeconds();
    this.periodSeconds = period;
    this.rule =
        new RestRule(
            unit.practice().restSamples(),
            unit.restWindowSeconds(period),
            unit.practice().restBandPercent(),
            period,
            noisePercent);
  }

  /**
   * The noise of the first readings, before the setpoint changes. Whether the unit stood still then
   * is not known: more than a run would start with, and the rule goes without any, which at worst
   * finds no rest.
   */
  private static double noise(UnitType unit, Positions positions, Plateau first) {
    int count = unit.practice().restSamples();
    List<Double> readings =
        first.rows().stream()
            .filter(TraceRows.Row::positioned)
            .limit(count)
            .map(positions::percent)
            .toList();
    if (readings.size() < count) {
      return 0.0;
    }
    double deviation = Spread.of(readings).deviation();
    return deviation <= unit.practice().noiseShare() * unit.deadBandPercent() ? deviation : 0.0;
  }

  double noisePercent() {
    return noisePercent;
  }

  double limitPercent() {
    return rule.limitPercent();
  }

  /**
   * The first window at rest of a plateau.
   *
   * @param point the point that its setpoint stands for, %; outside the travel the signal may be
   *     taken for lost
   * @param from the setpoint before, %
   * @param direction "up", "down" or "none"
   */
  Found find(Plateau plateau, double point, double from, String direction) {
    Practice practice = unit.practice();
    double travel = unit.travelSeconds(plateau.percent() - from);
    double earliest = practice.restEarliestSeconds() + travel;
    double since = plateau.fromSeconds();
    Optional<Found> almost = Optional.empty();
    double last = since;
    List<Double> seen = new ArrayList<>();
    rule.restart();
    for (TraceRows.Row row : plateau.rows()) {
      if (!row.positioned() || !row.damage().isEmpty()) {
        continue;
      }
      last = row.seconds();
      double percent = positions.percent(row);
      seen.add(percent);
      Optional<RestRule.Window> window = rule.add(ImportJournal.nanos(last), percent);
      double waited = last - since;
      boolean late = waited >= practice.restTimeoutSeconds() + 2.0 * travel;
      if (window.isPresent()
          && waited >= earliest - periodSeconds / 2.0
          && (late || followed(plateau, point, window.get()))) {
        Found found = found(window.get(), direction, seen, last);
        if (waited >= earliest) {
          return found;
        }
        almost = Optional.of(found);
      }
      if (late) {
        break;
      }
    }
    Found none = new Found(false, false, since, last);
    // Whoever stepped on at once did so by his own stamps, which the file holds only so well; where
    // the plateau went on, what nearly was a rest turned out to be none.
    return last - since < earliest ? almost.orElse(none) : none;
  }

  /** Whether it has moved, or need not: before its dead time is over every unit stands still. */
  private boolean followed(Plateau plateau, double point, RestRule.Window window) {
    double asked = unit.positionAt(Current.ofMilliamps(plateau.milliamps())).percent();
    boolean signal = point >= 0.0 && point <= 100.0;
    return !signal
        || rule.moved()
        || Math.abs(asked - window.meanPercent()) <= unit.mustFollowPercent();
  }

  private Found found(RestRule.Window window, String direction, List<Double> seen, double to) {
    boolean clean =
        RestRule.clean(
            direction,
            window.meanPercent(),
            seen,
            unit.practice().overshootPercent(),
            noisePercent);
    return new Found(true, clean, window.fromNanos() / 1.0e9, to);
  }
}
