package org.benchstroke.aids.twin;

import org.benchstroke.core.model.ControlParameters;
import org.benchstroke.core.model.LinkageParameters;
import org.benchstroke.core.model.LoadParameters;
import org.benchstroke.core.model.MechanicsParameters;
import org.benchstroke.core.model.ModelParameters;
import org.benchstroke.core.model.MotorParameters;
import org.benchstroke.core.model.PlayParameters;
import org.benchstroke.core.model.SensorParameters;
import org.benchstroke.core.model.TransmitterParameters;
import org.benchstroke.core.model.UnitModel;
import org.benchstroke.core.quantity.Characteristic;
import org.benchstroke.core.quantity.SignalRange;

/**
 * A unit of {@code model} with fitted settings, made to repeat recorded moves. Its controller looks
 * every millisecond, so that its answer changes evenly with its settings. Immutable.
 *
 * @param stops where it comes to rest
 * @param start h_on, %
 * @param motion what is fitted to the traces
 */
record TwinUnit(Stops stops, double start, Motion motion) {
  private static final int LEAD_IN_STEPS = 20;
  private static final double STEP_SECONDS = 0.001;
  private static final double MOST_STOP = 0.95;

  /** A motor without slip goes on as it would with any load: so it needs none. */
  private static final LoadParameters UNLOADED = new LoadParameters(0.0, 0.0, 0.5, 1.0);

  /** What slows a coasting motor at any speed: in the middle of what is usual, °/s². */
  private static final double COAST = 40.0;

  /** What the model can be made to do: run-down, s, and start threshold, %. */
  private static final double SHORTEST_RUN_DOWN = 0.005;

  private static final double LONGEST_RUN_DOWN = 2.0;
  private static final double MOST_START = 20.0;

  /**
   * What is fitted to the traces.
   *
   * @param lag time constant of the transmitter, s
   * @param delay from a decision to the motor, s
   * @param filter time constant of the controller's filter, s: just above the start threshold it
   *     delays the start, in front of the setpoint the stop
   * @param runUp time constant of the run-up, s
   * @param runDown time constant of the coast, s
   * @param play before the sensor, % of travel
   * @param up speed opening, %/s
   * @param down speed closing, %/s
   */
  record Motion(
      double lag,
      double delay,
      double filter,
      double runUp,
      double runDown,
      double play,
      double up,
      double down) {
    /** Places of the values. */
    static final int LAG = 0;

    static final int DELAY = 1;
    static final int FILTER = 2;
    static final int RUN_UP = 3;
    static final int RUN_DOWN = 4;
    static final int PLAY = 5;
    static final int UP = 6;
    static final int DOWN = 7;

    static Motion of(double[] x) {
      return new Motion(
          x[LAG], x[DELAY], x[FILTER], x[RUN_UP], x[RUN_DOWN], x[PLAY], x[UP], x[DOWN]);
    }

    double[] values() {
      return new double[] {lag, delay, filter, runUp, runDown, play, up, down};
    }

    /**
     * Whether a move depends on a value at all: not on the speed of the other way, and not on a
     * play that it doesn't cross.
     */
    static boolean matters(int place, Move move) {
      return switch (place) {
        case UP -> move.sign() > 0;
        case DOWN -> move.sign() < 0;
        case PLAY -> move.reverses();
        default -> true;
      };
    }

    double speed(int sign) {
      return sign > 0 ? up : down;
    }
  }

  /** The same with a longer delay, s. */
  TwinUnit later(double seconds) {
    double[] values = motion.values();
    values[Motion.DELAY] += seconds;
    return new TwinUnit(stops, start, Motion.of(values));
  }

  /** The same with another start threshold, %. */
  TwinUnit startingAt(double percent) {
    return new TwinUnit(stops, Math.min(MOST_START, percent), motion);
  }

  /** Where it is at each sample of a move, % of travel as the bench reads it. */
  double[] follow(Move move, int samples) {
    return course(move, 0.0).seen(move, samples, motion.delay());
  }

  /**
   * How it goes through a move, whatever its delay: that comes on top of start and stop alike.
   *
   * @param further how much later than usual it is stopped, % of travel: no two stops are the same
   */
  Course course(Move move, double further) {
    UnitModel unit = new UnitModel(parameters(move, further), 1);
    unit.motorPower(true);
    unit.command(milliamps(move.from()));
    unit.advanceTo(LEAD_IN_STEPS * UnitModel.STEP_NANOS);
    unit.command(milliamps(move.to()));
    return new Course(unit, LEAD_IN_STEPS);
  }

  /** The same without delay: those that go through a move alike. */
  TwinUnit atOnce() {
    return later(-motion.delay());
  }

  /** On a scale of its own: the twin needs no currents. */
  private static double milliamps(double percent) {
    return 4.0 + 0.16 * percent;
  }

  private ModelParameters parameters(Move move, double further) {
    double speed = motion.speed(move.sign());
    double before = move.before().mean();
    double stand = Math.max(0.0, Math.min(100.0, stops.position(before)));
    ModelParameters base = ModelParameters.baseline();
    double coast = COAST / base.mechanics().travel().degreesPerPercent();
    double runsDown = runsDown(speed, coast);
    double stop = stops.lead().value() - further + speed * motion.filter() + runsDown;
    double kept = Math.max(0.0, Math.min(MOST_STOP * start, stop));
    // In the middle of a play twice as wide it has all of the true one before it.
    double gap = move.reverses() ? 2.0 * motion.play() : 0.0;
    return base.with(stop < 0.0 ? motor(speed, (runsDown - stop) / speed, 0.0) : motor(speed))
        .with(mechanics(base.mechanics(), gap, stand))
        .with(UNLOADED)
        .with(new SensorParameters(0.0, 0.0, 0.0, 0.0))
        .with(transmitter())
        .with(control(kept));
  }

  /**
   * How far it runs down, % of travel: dv/dt = −v/τ − a, from v to 0.
   *
   * @param coast a, %/s²
   */
  private double runsDown(double speed, double coast) {
    double even = coast * motion.runDown();
    return motion.runDown() * (speed - even * StrictMath.log1p(speed / even));
  }

  private MotorParameters motor(double speed) {
    return motor(speed, motion.runDown(), COAST);
  }

  private MotorParameters motor(double speed, double runDown, double coast) {
    return new MotorParameters(
        MotorParameters.Kind.AC,
        100.0 / speed,
        motion.runUp(),
        Math.max(SHORTEST_RUN_DOWN, Math.min(LONGEST_RUN_DOWN, runDown)),
        coast,
        0.0,
        2.0,
        1.0);
  }

  private static MechanicsParameters mechanics(MechanicsParameters m, double gap, double stand) {
    return new MechanicsParameters(
        m.travel(), PlayParameters.ofGear(gap), LinkageParameters.NONE, m.friction(), stand);
  }

  private TransmitterParameters transmitter() {
    // o(y) = o₀ + o₁·(y − 50)/50, so y = x·(1 − o₁/50) − o₀ + o₁ to the first order
    double slope = stops.slope() / 50.0;
    double zero = -stops.atMiddle() + stops.slope();
    return new TransmitterParameters(
        SignalRange.FOUR_TO_TWENTY, motion.lag(), 24, 0.0, 25.0, zero, -100.0 * slope);
  }

  private ControlParameters control(double stop) {
    return new ControlParameters(
        SignalRange.FOUR_TO_TWENTY,
        start,
        stop,
        STEP_SECONDS,
        motion.filter(),
        0.0,
        0.3,
        Characteristic.linear());
  }
}
