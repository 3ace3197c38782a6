package org.benchstroke.aids.twin;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.judge.JudgedRun;
import org.benchstroke.record.Event;
import org.benchstroke.unit.UnitType;

/** Makes the twin of a run: stops, starts, motion, then what follows from them. One thread. */
final class TwinFit {
  /** A start threshold is set this much above the onset of hunting (common practice, no source). */
  private static final double BEYOND_ONSET = 1.2;

  /** Setpoints nearer to an end are left out: an end switch may stop the motor there, %. */
  private static final double END = 3.0;

  /** In a motion of this length any motor has reached its speed, s. */
  private static final double RUN_UP_SECONDS = 0.6;

  /** No motor of a modulating unit takes longer (common practice, no source), s. */
  private static final double LEAST_RUN_UP_SECONDS = 0.27;

  /** The approaches to a dead band are a little longer: a fast unit has no longer moves, %. */
  private static final double APPROACH_PERCENT = 9.0;

  /** The longest usual controller period (common practice, no source), s. */
  private static final double LONGEST_PERIOD = 0.05;

  /** A change this far above the start threshold starts a unit for sure, %. */
  private static final double SURELY_ABOVE = 0.08;

  /** What the model can be made to do, with their U on top: thresholds, %; speeds, %/s. */
  private static final double LEAST_START = 0.02;

  private static final double MOST_START = 12.0;

  /** U of a start threshold that may be anything from 0 to twice the one taken, as a share. */
  private static final double UNKNOWN = 1.96 / Math.sqrt(3.0);

  private static final double FASTEST = 80.0;

  private static final double SLOWEST = 0.5;

  /** The most that feedback and signal may be apart, %. */
  private static final double MOST_OFFSET = 8.0;

  /** Nothing is read more finely than this, %: without noise a misfit would have no measure. */
  private static final double LEAST_NOISE = 1e-4;

  private static final int LEAST_MOVES = 8;
  private static final int CURVES = 4;

  /** A curve of fewer is no picture. */
  private static final int LEAST_SAMPLES = 4;

  private final JudgedRun run;
  private final double resolution;

  TwinFit(JudgedRun run) {
    this.run = run;
    this.resolution = run.samples().resolutionPercent();
  }

  Twin twin() {
    if (run.imported().isPresent()) {
      return Twin.none("the record was made elsewhere");
    }
    if (run.unit().drive() == UnitType.Drive.PNEUMATIC) {
      return Twin.none("its model is that of a motorised unit, and this one is pneumatic");
    }
    return LimitCycle.of(run).map(this::hunting).orElseGet(this::resting);
  }

  private Twin resting() {
    List<Move> moves = MoveReader.of(run).stream().filter(m -> away(m.to())).toList();
    if (moves.size() < LEAST_MOVES) {
      return Twin.none(
          "the record holds "
              + moves.size()
              + " changes of the setpoint from rest to rest away from the ends, at least "
              + LEAST_MOVES
              + " are needed: "
              + whatToRun());
    }
    double least = leastWay(run.unit().percentPerSecond());
    List<Move> clean =
        moves.stream().filter(m -> m.motions() == 1 && Math.abs(m.way()) >= least).toList();
    int corrected =
        (int) moves.stream().filter(m -> m.motions() > 1 && Math.abs(m.way()) >= least).count();
    double noise = noise(clean);
    Optional<Stops> stops = Stops.of(clean, corrected, noise, run.unit().percentPerSecond());
    if (stops.isEmpty()) {
      return Twin.none(tooFew(moves, clean.size(), corrected, least));
    }
    Optional<Starts> starts =
        Starts.of(moves, stops.get(), noise, resolution).filter(Starts::telling);
    return twin(moves, clean, stops.get(), starts, noise);
  }

  /** A unit that never rests gains nothing by more of the same. */
  private String whatToRun() {
    long restless = run.record().events(Event.Rested.class).filter(r -> !r.settled()).count();
    return restless == 0
        ? "run a travel error or a dead band test"
        : "it did not come to rest in "
            + restless
            + " of its waits; a hunting test shows what it does there";
  }

  /** What is shorter does not show where a motor at its speed stops, %. */
  private static double leastWay(double percentPerSecond) {
    return Math.max(
        LEAST_RUN_UP_SECONDS * percentPerSecond,
        Math.min(RUN_UP_SECONDS * percentPerSecond, APPROACH_PERCENT));
  }

  private static String tooFew(List<Move> moves, int clean, int corrected, double least) {
    long stood = moves.stream().filter(m -> !m.moved()).count();
    return "of "
        + moves.size()
        + " changes of the setpoint "
        + stood
        + " did not move it, "
        + (moves.size() - stood - clean - corrected)
        + " were shorter than the "
        + Numbers.fixed(least, 1)
        + " % of travel in which its motor comes up to speed, "
        + corrected
        + " took more than one motion, and "
        + clean
        + " came to rest in one: too few of these at too few setpoints, from either side, to show"
        + " where it stops; a travel error or a step response test has longer moves";
  }

  /** Of a unit that hunts: how it must be set is known, how it is set is not. */
  private Twin hunting(LimitCycle cycle) {
    double coast = -cycle.lead().value();
    double may = mayScatter(run.unit().percentPerSecond(), resolution);
    boolean regular = cycle.scatter() <= may;
    double least = BEYOND_ONSET * (coast + cycle.lead().half() + Math.sqrt(3.0) * cycle.scatter());
    String words =
        regular
            ? "It hunts. Widen its start threshold (dead band setting) to at least "
                + Numbers.fixed(least, 2)
                + " %: 20 % beyond where its worst stop may begin to hunt, U included."
            : "No recommendation: the turns of its cycle scatter by "
                + Numbers.fixed(cycle.scatter(), 2)
                + " %, more than a controller's period explains ("
                + Numbers.fixed(may, 2)
                + " %).";
    return new Twin(
        Parameters.of(cycle),
        Optional.empty(),
        regular ? OptionalDouble.of(least) : OptionalDouble.empty(),
        Optional.empty(),
        List.of(),
        List.of(
            words,
            "Taken from its limit cycle alone: with the new setting, run the dead band and the"
                + " hunting test again. An aid, not part of the verdict; the unit's own manual"
                + " comes first."));
  }

  /** Of the feedback in the rests after these moves, at least that of its steps, %. */
  private double noise(List<Move> moves) {
    double squares =
        moves.stream().mapToDouble(m -> square(m.after().deviation())).average().orElse(0.0);
    return Math.max(LEAST_NOISE, Math.max(Math.sqrt(squares), resolution / Math.sqrt(12.0)));
  }

  private static boolean away(double percent) {
    return percent > END && percent < 100.0 - END;
  }

  private static double square(double value) {
    return value * value;
  }

  private Twin twin(
      List<Move> moves, List<Move> clean, Stops stops, Optional<Starts> starts, double noise) {
    TwinUnit.Motion guess = guess(clean);
    Optional<String> strange = strange(guess, stops);
    if (strange.isPresent()) {
      return Twin.none(strange.get());
    }
    double start = starts.map(s -> s.threshold().value()).orElseGet(() -> wellBelow(clean, stops));
    // Just above its threshold it may be noise that started it, and the twin has none.
    List<Move> single =
        moves.stream()
            .filter(m -> m.motions() == 1 && away(m.before().mean()))
            .filter(m -> m.askedPercent(stops) > start + SURELY_ABOVE)
            .toList();
    double kept = Math.max(LEAST_START, Math.min(MOST_START, start));
    FittedValue known =
        new FittedValue(kept, starts.map(s -> s.threshold().half()).orElse(UNKNOWN * kept));
    MotionFit fit = new MotionFit(single, stops, known, noise, guess);
    return fit.possible()
        ? twin(stops, starts, noise, fit)
        : Twin.none("too few moves both ways with samples in them");
  }

  private Twin twin(Stops stops, Optional<Starts> starts, double noise, MotionFit fit) {
    MotionFit.Result motion = fit.fit();
    double fastest = Math.max(motion.unit().motion().up(), motion.unit().motion().down());
    Misfit misfit =
        new Misfit(
            motion.moves().size(),
            motion.rms(),
            noise,
            motion.ratio(),
            stops.scatter(),
            mayScatter(fastest, noise));
    Optional<FittedValue> margin =
        starts.map(
            s ->
                new FittedValue(
                    s.threshold().value() + stops.lead().value(),
                    StrictMath.hypot(s.threshold().half(), stops.lead().half())));
    // The worst single stop begins to hunt first: a rectangular scatter ends at √3 deviations.
    double onset = stops.lead().half() + Math.sqrt(3.0) * stops.scatter() - stops.lead().value();
    SettingAdvice advice =
        new SettingAdvice(misfit, starts, margin, BEYOND_ONSET * Math.max(0.0, onset));
    return new Twin(
        new Parameters(stops, starts, motion, misfit.explained(), fit.tellsPlay(), StemSide.of(run))
            .all(),
        margin,
        advice.least(),
        Optional.of(misfit),
        curves(motion),
        advice.words());
  }

  /** The scatter of stops that a controller that looks every 50 ms or more often explains, %. */
  private static double mayScatter(double speed, double noise) {
    return 1.5 * StrictMath.hypot(speed * LONGEST_PERIOD / Math.sqrt(12.0), noise);
  }

  private TwinUnit.Motion guess(List<Move> clean) {
    double nominal = run.unit().percentPerSecond();
    double up = Speeds.of(clean, 1).orElse(nominal);
    return new TwinUnit.Motion(
        0.1, 0.03, 0.05, 0.1, 0.05, 0.1, up, Speeds.of(clean, -1).orElse(nominal));
  }

  private static Optional<String> strange(TwinUnit.Motion guess, Stops stops) {
    if (Math.max(guess.up(), guess.down()) > FASTEST
        || Math.min(guess.up(), guess.down()) < SLOWEST) {
      return Optional.of("its speed is outside what the model is made for");
    }
    double most = Math.max(Math.abs(stops.offset(0.0)), Math.abs(stops.offset(100.0)));
    return most > MOST_OFFSET
        ? Optional.of("feedback and signal are too far apart: set zero and span first")
        : Optional.empty();
  }

  /** Without a start threshold any that the moves were well beyond will do. */
  private static double wellBelow(List<Move> clean, Stops stops) {
    return 0.5 * clean.stream().mapToDouble(m -> m.askedPercent(stops)).min().orElseThrow();
  }

  private static List<Curve> curves(MotionFit.Result motion) {
    TwinUnit unit = motion.unit();
    List<Move> worthIt =
        motion.moves().stream().filter(m -> samples(m, unit) >= LEAST_SAMPLES).toList();
    int every = Math.max(1, worthIt.size() / CURVES);
    List<Curve> curves = new ArrayList<>();
    for (int i = 0; i < worthIt.size() && curves.size() < CURVES; i += every) {
      Move m = worthIt.get(i);
      int samples = samples(m, unit);
      List<Double> modelled = Arrays.stream(unit.follow(m, samples)).boxed().toList();
      curves.add(
          new Curve(m.place(), m.from(), m.to(), m.at(), m.trace().first(samples), modelled));
    }
    return curves;
  }

  private static int samples(Move move, TwinUnit unit) {
    return MotionFit.samples(move, unit.motion().speed(move.sign()));
  }
}
