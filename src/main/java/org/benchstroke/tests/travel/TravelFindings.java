package org.benchstroke.tests.travel;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.benchstroke.core.analysis.Direction;
import org.benchstroke.core.analysis.Linearity.Point;
import org.benchstroke.core.analysis.RestReading;
import org.benchstroke.core.analysis.Spread;
import org.benchstroke.core.analysis.StaticCharacteristic;
import org.benchstroke.core.analysis.StaticCharacteristic.Lag;
import org.benchstroke.core.analysis.StaticCharacteristic.Pairing;
import org.benchstroke.core.analysis.StraightLine;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.io.instrument.LimitSwitch;
import org.benchstroke.judge.Chapter;
import org.benchstroke.judge.Finding;
import org.benchstroke.judge.Samples;
import org.benchstroke.unit.UnitType;

/** What stands out of one travel error test by the unit's own feedback. */
final class TravelFindings {
  /** Who is further off does not follow: that is no matter of zero or span. Our choice, %. */
  private static final double ASTRAY_PERCENT = 20.0;

  private static final double WORTH_SAYING_PERCENT = 0.3;

  private static final double ALIKE = 0.4;

  private final UnitType unit;
  private final Samples samples;
  private final TravelTest travel;
  private final TravelReadings taken;
  private final Optional<Chapter> attempt;

  TravelFindings(UnitType unit, Samples samples, TravelTest travel) {
    this.unit = unit;
    this.samples = samples;
    this.travel = travel;
    this.taken = travel.feedback();
    this.attempt = travel.attempt();
  }

  List<Finding> all() {
    List<Finding> findings = new ArrayList<>(flat());
    if (findings.isEmpty()) {
      shape().ifPresent(findings::add);
    }
    slack().map(what -> new Finding(Finding.Kind.SLACK, what)).ifPresent(findings::add);
    return findings;
  }

  /** Short of an end with the switch there made. */
  private List<Finding> flat() {
    Map<LimitSwitch, Finding> findings = new EnumMap<>(LimitSwitch.class);
    for (RestReading reading : taken.readings()) {
      boolean top = reading.direction() == Direction.UP && reading.errorPercent() < 0.0;
      boolean end = top || (reading.direction() == Direction.DOWN && reading.errorPercent() > 0.0);
      double shortBy = Math.abs(reading.errorPercent());
      LimitSwitch which = top ? LimitSwitch.OPEN : LimitSwitch.CLOSED;
      if (end && shortBy > unit.deadBandPercent() + 0.5 && madeAt(reading, which)) {
        String sentence =
            "Position stops at "
                + Numbers.fixed(reading.meanPercent(), 1)
                + " % with the "
                + which.key()
                + " switch made: the switch cuts the motor before the end of travel.";
        findings.putIfAbsent(which, new Finding(Finding.Kind.END_SHORT, sentence));
      }
    }
    return List.copyOf(findings.values());
  }

  /** As it was last read before the unit was told something new; a person looks after the rest. */
  private boolean madeAt(RestReading reading, LimitSwitch which) {
    TravelError.Place place =
        new TravelError.Place(reading.setpointPercent(), reading.direction(), reading.cycle());
    return attempt
        .flatMap(
            chapter ->
                chapter.arrivals(place::equals).stream()
                    .reduce((first, last) -> last)
                    .map(rest -> chapter.until(rest.passage())))
        .flatMap(lines -> samples.made(lines, which, Double.POSITIVE_INFINITY))
        .orElse(false);
  }

  /** A constant error, or one that grows with the setpoint. */
  private Optional<Finding> shape() {
    List<Point> curve = new StaticCharacteristic(taken.readings()).averageCurve();
    if (curve.size() < 3 || taken.anyLacking().isPresent()) {
      return Optional.empty();
    }
    Spread errors = Spread.of(curve.stream().map(Point::y).toList());
    double furthest = curve.stream().mapToDouble(p -> Math.abs(p.y())).max().orElseThrow();
    if (furthest > ASTRAY_PERCENT) {
      return found(
          Finding.Kind.ASTRAY,
          "It does not come to its setpoints, but is off by up to "
              + Numbers.fixed(furthest, 0)
              + " %: look at motor, supply and thermal switch before zero and span.");
    }
    double least = Math.max(WORTH_SAYING_PERCENT, unit.deadBandPercent() / 2.0);
    if (Math.abs(errors.mean()) >= least && errors.range() <= ALIKE * Math.abs(errors.mean())) {
      return found(
          Finding.Kind.ZERO,
          "Every point reads "
              + (errors.mean() > 0.0 ? "high" : "low")
              + " by "
              + Numbers.signed(errors.mean(), 1)
              + " %: the zero is shifted.");
    }
    return span(curve, least);
  }

  private static Optional<Finding> span(List<Point> curve, double least) {
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
    return found(
        Finding.Kind.SPAN,
        "The error grows with the setpoint, from "
            + Numbers.signed(y[0], 1)
            + " % at "
            + Numbers.plain(x[0])
            + " % to "
            + Numbers.signed(y[y.length - 1], 1)
            + " % at "
            + Numbers.plain(x[x.length - 1])
            + " %: the span is off.");
  }

  private static Optional<Finding> found(Finding.Kind kind, String sentence) {
    return Optional.of(new Finding(kind, sentence));
  }

  /** Clean by its own sensor, slack at the stem. */
  private Optional<String> slack() {
    Optional<Lag> stem = travel.stem().flatMap(TravelFindings::lag);
    Optional<Lag> feedback = lag(travel.feedback());
    if (stem.isEmpty() || feedback.isEmpty()) {
      return Optional.empty();
    }
    double much = Math.max(WORTH_SAYING_PERCENT, 3.0 * Math.abs(feedback.get().percent()));
    if (Math.abs(stem.get().percent()) < much) {
      return Optional.empty();
    }
    return Optional.of(
        "Feedback is clean ("
            + Numbers.signed(feedback.get().percent(), 2)
            + " % between coming down and going up), but the stem differs by "
            + Numbers.signed(stem.get().percent(), 2)
            + " % at "
            + Numbers.upTo(stem.get().setpointPercent(), 3)
            + " %: a stem that sticks, or "
            + "slack after the sensor.");
  }

  private static Optional<Lag> lag(TravelReadings taken) {
    return new StaticCharacteristic(taken.readings()).hysteresisPlusDeadBand(Pairing.MEANS);
  }
}
