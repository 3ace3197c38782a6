package org.benchstroke.twin;

import org.benchstroke.model.ControlParameters;
import org.benchstroke.model.LinkageParameters;
import org.benchstroke.model.MechanicsParameters;
import org.benchstroke.model.ModelParameters;
import org.benchstroke.model.MotorParameters;
import org.benchstroke.model.PlayParameters;
import org.benchstroke.model.SensorParameters;
import org.benchstroke.model.TransmitterParameters;
import org.benchstroke.model.UnitModel;
import org.benchstroke.quantity.Characteristic;
import org.benchstroke.quantity.SignalRange;

/**
 * A unit of {@code model} with fitted settings, made to repeat recorded moves. Its controller looks
 * every millisecond, so that its answer changes evenly with its settings. Immutable.
 *
 * @param stops where it comes to rest
 * @param start h_on, %
 * @param motion what is fitted to the traces
 */
record TwinUnit(Stops stops, double start, Motion motion) {
  private static final double LEAD_IN_SECONDS = 0.02;
  private static final double RUN_UP_SECONDS = 0.08;
  private static final double BRAKE_SECONDS = 0.03;
  private static final double MOST_STOP = 0.95;

  /**
   * What is fitted to the traces.
   *
   * @param lag time constant of the transmitter, s
   * @param delay from a decision to the motor, s
   * @param filter time constant of the controller's filter, s: just above the start threshold it
   *     delays the start, in front of the setpoint the stop
   * @param play before the sensor, % of travel
   * @param up speed opening, %/s
   * @param down speed closing, %/s
   */
  record Motion(double lag, double delay, double filter, double play, double up, double down) {
    /** Places of the values. */
    static final int LAG = 0;

    static final int DELAY = 1;
    static final int FILTER = 2;
    static final int PLAY = 3;
    static final int UP = 4;
    static final int DOWN = 5;

    static Motion of(double[] x) {
      return new Motion(x[LAG], x[DELAY], x[FILTER], x[PLAY], x[UP], x[DOWN]);
    }

    double[] values() {
      return new double[] {lag, delay, filter, play, up, down};
    }

    double speed(int sign) {
      return sign > 0 ? up : down;
    }
  }

  /** Where it is at each sample of a move, % of travel as the bench reads it. */
  double[] follow(Move move, int samples) {
    UnitModel unit = new UnitModel(parameters(move), 1);
    unit.motorPower(true);
    unit.command(milliamps(move.from()));
    unit.advanceTo(Math.round(LEAD_IN_SECONDS * 1e9));
    unit.command(milliamps(move.to()));
    double[] seen = new double[samples];
    for (int i = 0; i < samples; i++) {
      double since = move.trace().seconds(i) - move.at() + LEAD_IN_SECONDS;
      unit.advanceTo(Math.round(since * 1e9));
      seen[i] = (unit.feedbackMilliamps() - 4.0) / 0.16;
    }
    return seen;
  }

  /** On a scale of its own: the twin needs no currents. */
  private static double milliamps(double percent) {
    return 4.0 + 0.16 * percent;
  }

  private ModelParameters parameters(Move move) {
    double speed = motion.speed(move.sign());
    double before = move.before().mean();
    double stand = Math.max(0.0, Math.min(100.0, before + stops.offset(before)));
    double stop = stops.lead().value() + speed * (motion.delay() + motion.filter() + BRAKE_SECONDS);
    double brake = stop < 0.0 ? BRAKE_SECONDS - stop / speed : BRAKE_SECONDS;
    double kept = Math.max(0.0, Math.min(MOST_STOP * start, stop));
    ModelParameters base = ModelParameters.baseline();
    // In the middle of a play twice as wide it has all of the true one before it.
    double gap = move.reverses() ? 2.0 * motion.play() : 0.0;
    return base.withMotor(motor(speed, Math.min(2.0, brake)))
        .withMechanics(mechanics(base.mechanics(), gap, stand))
        .withSensor(new SensorParameters(0.0, 0.0, 0.0, 0.0))
        .withTransmitter(transmitter())
        .withControl(control(kept));
  }

  private static MotorParameters motor(double speed, double brake) {
    return new MotorParameters(
        MotorParameters.Kind.AC, 100.0 / speed, RUN_UP_SECONDS, brake, 0.0, 0.0, 2.0, 1.0);
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
        0.001,
        motion.filter(),
        motion.delay(),
        0.3,
        Characteristic.linear());
  }
}
