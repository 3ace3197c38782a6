package org.benchstroke.core.model;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import org.benchstroke.core.model.UnitTruth.Ordered;
import org.benchstroke.core.model.UnitTruth.Point;
import org.benchstroke.core.model.UnitTruth.SwitchAngles;
import org.benchstroke.core.quantity.Current;
import org.benchstroke.core.quantity.Position;

/** Runs a quiet twin of a unit through the tests of {@link UnitTruth}. */
final class TruthRun {
  private static final double STEP_SECONDS = UnitModel.STEP_NANOS / 1e9;
  private static final int POINTS = 11;
  private static final double STAIR_PERCENT = 0.01;
  private static final double WIDEST_PERCENT = 45.0;
  private static final double FIRST_MOTION_PERCENT = 1e-6;
  private static final double STILL_PERCENT = 1e-6;
  private static final double BUILD_UP_SECONDS = 5.0;
  private static final int PHASES = 5;

  private final ModelParameters quiet;
  private final Ordered ordered;
  private final double stillSeconds;
  private final double stairSeconds;
  private final double longestSeconds;
  private UnitModel unit;

  TruthRun(ModelParameters parameters, Ordered ordered) {
    this.quiet = quiet(parameters);
    this.ordered = ordered;
    ControlParameters control = parameters.control();
    double lags = control.filterSeconds() + parameters.transmitter().lagSeconds();
    // A spool that is hardly open takes its time to build up what overcomes friction.
    double builds = parameters.pneumatic().isPresent() ? BUILD_UP_SECONDS : 0.0;
    this.stairSeconds = control.periodSeconds() + control.relaySeconds() + 12.0 * lags + builds;
    this.stillSeconds = Math.max(2.0, 3.0 * control.offSeconds() + stairSeconds);
    this.longestSeconds = 4.0 * parameters.strokeSeconds() + 60.0 + stillSeconds;
    this.unit = fresh();
  }

  /** Without what differs from one run to the next. */
  private static ModelParameters quiet(ModelParameters p) {
    SensorParameters.Worn worn = p.sensor().worn();
    return p.with(
            p.sensor()
                .withNoise(
                    0.0, new SensorParameters.Worn(worn.fromPercent(), worn.toPercent(), 0.0)))
        .with(p.input().quiet())
        .with(p.heat().withRise(0.0, 0.0));
  }

  private UnitModel fresh() {
    UnitModel made = new UnitModel(quiet, 1);
    made.motorPower(true);
    return made;
  }

  UnitTruth find() {
    List<Point> points = travel();
    Point lowest = points.get(0);
    Point highest = points.get(points.size() - 1);
    ControlParameters control = quiet.control();
    return new UnitTruth(
        points,
        lowest.down(),
        difference(highest.up(), lowest.down()),
        lowest.stemDown(),
        difference(highest.stemUp(), lowest.stemDown()),
        ofMotor(control.startPercent()),
        ofMotor(control.stopPercent()),
        mean(staircase(1, -1), staircase(-1, 1)),
        mean(staircase(1, 1), staircase(-1, -1)),
        quiet.pneumatic().isEmpty() ? coast() : OptionalDouble.empty(),
        stroke(0.0, 100.0),
        stroke(100.0, 0.0),
        start(60.0),
        start(40.0),
        switches());
  }

  /** A positioner has no thresholds at which it starts and stops a motor. */
  private OptionalDouble ofMotor(double value) {
    return quiet.pneumatic().isEmpty() ? OptionalDouble.of(value) : OptionalDouble.empty();
  }

  private List<Point> travel() {
    double[] percents = new double[POINTS];
    OptionalDouble[][] found = new OptionalDouble[4][POINTS];
    rest(50.0);
    rest(0.0);
    for (int i = 0; i < POINTS; i++) {
      percents[i] = 100.0 * i / (POINTS - 1);
      boolean rests = rest(percents[i]) && i > 0;
      found[0][i] = rests ? OptionalDouble.of(feedbackError()) : OptionalDouble.empty();
      found[2][i] = rests ? OptionalDouble.of(stemError()) : OptionalDouble.empty();
    }
    for (int i = POINTS - 1; i >= 0; i--) {
      boolean rests = rest(percents[i]) && i < POINTS - 1;
      found[1][i] = rests ? OptionalDouble.of(feedbackError()) : OptionalDouble.empty();
      found[3][i] = rests ? OptionalDouble.of(stemError()) : OptionalDouble.empty();
    }
    List<Point> points = new ArrayList<>();
    for (int i = 0; i < POINTS; i++) {
      points.add(new Point(percents[i], found[0][i], found[1][i], found[2][i], found[3][i]));
    }
    return points;
  }

  private double target() {
    double signal =
        ordered.signal().positionAt(Current.ofMilliamps(unit.loopMilliamps())).percent();
    return ordered.characteristic().travelAt(signal);
  }

  private double feedback() {
    return ordered.feedback().positionAt(Current.ofMilliamps(unit.feedbackMilliamps())).percent();
  }

  private double feedbackError() {
    return feedback() - target();
  }

  private double stemError() {
    return unit.truth().stemPercent() - target();
  }

  private void command(double travelPercent) {
    double signal = ordered.characteristic().signalAt(travelPercent);
    unit.command(ordered.signal().currentAt(Position.ofPercent(signal)).milliamps());
  }

  private void run(double seconds) {
    for (long i = Math.round(seconds / STEP_SECONDS); i > 0; i--) {
      unit.step();
    }
  }

  /** Commands a travel; whether the unit then comes to rest. */
  private boolean rest(double travelPercent) {
    command(travelPercent);
    double still = 0.0;
    double stem = Double.NaN;
    double sensed = Double.NaN;
    for (double t = 0.0; t < longestSeconds && still < stillSeconds; t += 0.05) {
      run(0.05);
      Truth truth = unit.truth();
      boolean same =
          Math.abs(truth.stemPercent() - stem) < STILL_PERCENT
              && Math.abs(truth.feedbackPercent() - sensed) < STILL_PERCENT;
      still = same && truth.direction() == 0 ? still + 0.05 : 0.0;
      stem = truth.stemPercent();
      sensed = truth.feedbackPercent();
    }
    return still >= stillSeconds;
  }

  /** The way to mid travel from a side; whether it came to rest there. */
  private boolean approach(int from) {
    unit = fresh();
    return rest(50.0 - 20.0 * from) && rest(50.0);
  }

  /**
   * Fine steps until the unit moves.
   *
   * @param came 1 if mid travel was approached opening, −1 closing
   * @param goes where the steps lead
   */
  private OptionalDouble staircase(int came, int goes) {
    if (!approach(came)) {
      return OptionalDouble.empty();
    }
    double from = unit.truth().feedbackPercent();
    int stairs = 0;
    while (stairs * STAIR_PERCENT < WIDEST_PERCENT) {
      stairs++;
      command(50.0 + goes * stairs * STAIR_PERCENT);
      run(stairSeconds);
      if (Math.abs(unit.truth().feedbackPercent() - from) > FIRST_MOTION_PERCENT) {
        return OptionalDouble.of((stairs - 0.5) * STAIR_PERCENT);
      }
    }
    return OptionalDouble.empty();
  }

  private OptionalDouble coast() {
    unit = fresh();
    if (!rest(20.0)) {
      return OptionalDouble.empty();
    }
    command(80.0);
    for (double t = 0.0; unit.truth().outputPercent() < 50.0; t += STEP_SECONDS) {
      if (t > longestSeconds) {
        return OptionalDouble.empty();
      }
      unit.step();
    }
    double from = unit.truth().outputPercent();
    unit.motorPower(false);
    run(20.0);
    return OptionalDouble.of(unit.truth().outputPercent() - from);
  }

  private OptionalDouble stroke(double from, double to) {
    unit = fresh();
    // One that stands beyond the first mark has no time from it.
    double mark = Math.abs(0.05 * (to - from));
    if (!rest(from) || Math.abs(feedback() - from) >= mark) {
      return OptionalDouble.empty();
    }
    command(to);
    double begun = untilFeedback(from + 0.05 * (to - from), to > from);
    double ended = begun + untilFeedback(from + 0.95 * (to - from), to > from);
    return Double.isFinite(ended)
        ? OptionalDouble.of((ended - begun) / 0.9)
        : OptionalDouble.empty();
  }

  /** How long until the feedback has passed a value, s; infinite if never. */
  private double untilFeedback(double percent, boolean rising) {
    for (double t = 0.0; t < longestSeconds; t += STEP_SECONDS) {
      if (rising ? feedback() >= percent : feedback() <= percent) {
        return t;
      }
      unit.step();
    }
    return Double.POSITIVE_INFINITY;
  }

  private UnitTruth.Start start(double to) {
    double dead = 0.0;
    double first = 0.0;
    for (int phase = 0; phase < PHASES; phase++) {
      if (!approach(1)) {
        return UnitTruth.Start.NEVER;
      }
      run(quiet.control().periodSeconds() * phase / PHASES);
      double sensed = unit.truth().feedbackPercent();
      double shown = feedback();
      command(to);
      double t = 0.0;
      boolean moved = false;
      while (Math.abs(feedback() - shown) < twoStepsPercent()) {
        if (t > longestSeconds) {
          return UnitTruth.Start.NEVER;
        }
        if (!moved && Math.abs(unit.truth().feedbackPercent() - sensed) > FIRST_MOTION_PERCENT) {
          first += t;
          moved = true;
        }
        unit.step();
        t += STEP_SECONDS;
      }
      dead += t;
    }
    return new UnitTruth.Start(OptionalDouble.of(dead / PHASES), OptionalDouble.of(first / PHASES));
  }

  private double twoStepsPercent() {
    TransmitterParameters t = quiet.transmitter();
    double step = (t.highestMilliamps() - t.lowestMilliamps()) / Math.pow(2.0, t.bits());
    return 2.0 * step / Math.abs(t.range().spanMilliamps()) * 100.0;
  }

  private Map<String, SwitchAngles> switches() {
    CamParameters cams = quiet.cams();
    double back = cams.differentialDegrees();
    Map<String, SwitchAngles> angles = new LinkedHashMap<>();
    angles.put("closed", angles(cams.closedDegrees(), back));
    angles.put("open", angles(cams.openDegrees(), -back));
    angles.put("closed auxiliary", angles(cams.closedAuxiliaryDegrees(), back));
    angles.put("open auxiliary", angles(cams.openAuxiliaryDegrees(), -back));
    return angles;
  }

  private static SwitchAngles angles(double trip, double back) {
    return new SwitchAngles(trip, trip + back);
  }

  private static OptionalDouble difference(OptionalDouble of, OptionalDouble less) {
    return of.isPresent() && less.isPresent()
        ? OptionalDouble.of(of.getAsDouble() - less.getAsDouble())
        : OptionalDouble.empty();
  }

  private static OptionalDouble mean(OptionalDouble one, OptionalDouble other) {
    return one.isPresent() && other.isPresent()
        ? OptionalDouble.of((one.getAsDouble() + other.getAsDouble()) / 2.0)
        : OptionalDouble.empty();
  }
}
