package org.benchstroke.judge;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.benchstroke.core.analysis.Direction;
import org.benchstroke.core.analysis.Linearity.Point;
import org.benchstroke.core.analysis.RestReading;
import org.benchstroke.core.analysis.Spread;
import org.benchstroke.core.analysis.StaticCharacteristic;
import org.benchstroke.core.analysis.StraightLine;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.io.instrument.LimitSwitch;
import org.benchstroke.procedure.TravelError;
import org.benchstroke.record.Entry;
import org.benchstroke.record.Event;
import org.benchstroke.record.Leg;
import org.benchstroke.unit.UnitType;

/** What stands out of one travel error test by the unit's own feedback. */
final class TravelFindings {
  /** Who is further off does not follow: that is no matter of zero or span. Our choice, %. */
  private static final double ASTRAY_PERCENT = 20.0;

  private static final double WORTH_SAYING_PERCENT = 0.3;
  private static final double ALIKE = 0.4;

  private final UnitType unit;
  private final Samples samples;
  private final Taken taken;
  private final Optional<Attempt> attempt;
  private final List<Entry> entries;

  TravelFindings(UnitType unit, Samples samples, TravelTest travel) {
    this.unit = unit;
    this.samples = samples;
    this.taken = travel.feedback();
    this.attempt = travel.attempt();
    this.entries = travel.attempt().map(Attempt::entries).orElse(List.of());
  }

  List<String> all() {
    List<String> findings = new ArrayList<>();
    findings.addAll(flat());
    if (findings.isEmpty()) {
      shape().ifPresent(findings::add);
    }
    return findings;
  }

  /** Short of an end with the switch there made. */
  private List<String> flat() {
    List<String> findings = new ArrayList<>();
    for (RestReading reading : taken.readings()) {
      boolean top = reading.direction() == Direction.UP && reading.errorPercent() < 0.0;
      boolean end = top || (reading.direction() == Direction.DOWN && reading.errorPercent() > 0.0);
      double shortBy = Math.abs(reading.errorPercent());
      LimitSwitch which = top ? LimitSwitch.OPEN : LimitSwitch.CLOSED;
      if (end && shortBy > unit.deadBandPercent() + 0.5 && madeAt(reading, which)) {
        String finding =
            "Position stops at "
                + Numbers.fixed(reading.meanPercent(), 1)
                + " % with the "
                + which.key()
                + " switch made: "
                + FindingWords.SWITCH_CUTS
                + ".";
        if (findings.stream().noneMatch(f -> f.contains(which.key() + " switch"))) {
          findings.add(finding);
        }
      }
    }
    return findings;
  }

  /** As it was last read before the unit was told something new; a person looks after the rest. */
  private boolean madeAt(RestReading reading, LimitSwitch which) {
    TravelError.Place place =
        new TravelError.Place(reading.setpointPercent(), reading.direction(), reading.cycle());
    int at = -1;
    for (int i = 0; i < entries.size(); i++) {
      boolean here =
          entries.get(i).event() instanceof Event.Rested r
              && r.leg() == Leg.ARRIVAL
              && attempt.orElseThrow().isFor(entries.get(i), place);
      at = here ? i : at;
    }
    if (at < 0) {
      return false;
    }
    int end = at + Segments.untilNext(entries, at).size();
    return samples.made(entries.subList(0, end), which, Double.POSITIVE_INFINITY).orElse(false);
  }

  /** A constant error, or one that grows with the setpoint. */
  private Optional<String> shape() {
    List<Point> curve = new StaticCharacteristic(taken.readings()).averageCurve();
    if (curve.size() < 3 || taken.anyLacking().isPresent()) {
      return Optional.empty();
    }
    Spread errors = Spread.of(curve.stream().map(Point::y).toList());
    double furthest = curve.stream().mapToDouble(p -> Math.abs(p.y())).max().orElseThrow();
    if (furthest > ASTRAY_PERCENT) {
      return Optional.of(
          "It does not come to its setpoints, but is off by up to "
              + Numbers.fixed(furthest, 0)
              + " %: look at motor, supply and thermal switch before zero and span.");
    }
    double least = Math.max(WORTH_SAYING_PERCENT, unit.deadBandPercent() / 2.0);
    if (Math.abs(errors.mean()) >= least && errors.range() <= ALIKE * Math.abs(errors.mean())) {
      return Optional.of(
          "Every point reads "
              + (errors.mean() > 0.0 ? "high" : "low")
              + " by "
              + Numbers.signed(errors.mean(), 1)
              + " %: "
              + FindingWords.ZERO
              + ".");
    }
    return span(curve, least);
  }

  private static Optional<String> span(List<Point> curve, double least) {
    double[] x = curve.stream().mapToDouble(Point::x).toArray();
    double[] y = curve.stream().mapToDouble(Point::y).toArray();
    StraightLine line = StraightLine.fit(x, y);
    double rise = line.slope() * (x[x.length - 1] - x[0]);
    double worst = 0.0;
    for (int i = 0; i < x.length; i++) {
      worst = Math.max(worst, Math.abs(y[i] - line.at(x[i])));
    }
    if (Math.abs(rise) < 2.0 * least || worst > ALIKE / 2.0 * Math.abs(rise)) {
      return Optional.empty();
    }
    return Optional.of(
        "The error grows with the setpoint, from "
            + Numbers.signed(y[0], 1)
            + " % at "
            + Numbers.plain(x[0])
            + " % to "
            + Numbers.signed(y[y.length - 1], 1)
            + " % at "
            + Numbers.plain(x[x.length - 1])
            + " %: "
            + FindingWords.SPAN
            + ".");
  }
}
