package org.benchstroke.core.model;

import net.jafama.StrictFastMath;

/**
 * Chamber, spring, friction and damping of a single-acting actuator.
 *
 * <p>With a the share of its travel that air has made, p the chamber's pressure and V(a) its
 * volume: the air in it, m = p·V, isothermal (Boyle's law), changes by what the spool lets in or
 * out. The spring balances p at a* = (p − p_from)/(p_to − p_from) (Hooke's law). It sticks while
 * |a* − a| is within the friction at rest; then a' = (a* − a ∓ friction)/τ, and friction falls with
 * speed as Stribeck found. Mass is left out: its damping is far above critical.
 */
final class SpringActuator {
  private static final int SLICES = 1000;

  /** The speed at which friction has fallen most of its way, × travel per second. */
  private static final double STRIBECK_PER_SECOND = 0.02;

  private final PneumaticParameters parameters;
  private final double least;
  private final double most;
  private final double range;
  private final double stick;
  private final double slide;
  private final double airConductance;
  private final double springConductance;
  private final double dt;
  private double air;
  private double share;
  private double speed;

  /**
   * At the spring's end, vented.
   *
   * @param least where the stop on the spring's side is, × travel, below 0 if beyond its end
   * @param most where the other stop is
   */
  SpringActuator(PneumaticParameters parameters, double least, double most, double stepSeconds) {
    this.parameters = parameters;
    this.least = least;
    this.most = most;
    this.range = parameters.springToBar() - parameters.springFromBar();
    this.stick = parameters.stickPercent() / 100.0;
    this.slide = parameters.slidePercent() / 100.0;
    this.dt = stepSeconds;
    this.share = least;
    this.air = AirFlow.ROOM_BAR * volume();
    double rated = parameters.air().ratedBar() + AirFlow.ROOM_BAR;
    this.airConductance = needed(rated, true) / parameters.airSeconds();
    this.springConductance = needed(rated, false) / parameters.springSeconds();
  }

  /** The conductance that makes the full travel in one second, friction left out. */
  private double needed(double rated, boolean byAir) {
    double sum = 0.0;
    for (int i = 0; i < SLICES; i++) {
      double at = (i + 0.5) / SLICES;
      double bar = balance(at);
      double flow = byAir ? AirFlow.between(rated, bar) : AirFlow.between(bar, AirFlow.ROOM_BAR);
      sum += (range * (parameters.deadVolumeRatio() + at - least) + bar) / flow;
    }
    return sum / SLICES;
  }

  /** The absolute pressure that balances the spring at a share of the travel. */
  private double balance(double at) {
    return parameters.springFromBar() + at * range + AirFlow.ROOM_BAR;
  }

  private double volume() {
    return parameters.deadVolumeRatio() + share - least;
  }

  /** The chamber's absolute pressure, bar. */
  double bar() {
    return air / volume();
  }

  /**
   * One step.
   *
   * @param spool 1 lets air in, −1 out, wide open; 0 is shut
   * @param supplyBar absolute pressure of the supply
   * @return air that it took from its supply, bar × swept volume
   */
  double step(double spool, double supplyBar) {
    double bar = bar();
    double flow =
        spool >= 0.0
            ? spool * airConductance * AirFlow.between(supplyBar, bar)
            : spool * springConductance * AirFlow.between(bar, AirFlow.ROOM_BAR);
    air += flow * dt;
    move();
    return spool > 0.0 ? flow * dt : 0.0;
  }

  private void move() {
    double bar = bar();
    double out = (bar - balance(share)) / range;
    double net = Math.abs(out) - friction();
    if (net <= 0.0) {
      speed = 0.0;
      return;
    }
    // Implicit: as it moves, its volume grows and its pressure falls.
    double stiffer = 1.0 + bar / volume() / range;
    double tau = parameters.dampingSeconds();
    double made = Math.copySign(net * dt / tau / (1.0 + dt / tau * stiffer), out);
    double before = share;
    share = Math.max(least, Math.min(most, share + made));
    speed = (share - before) / dt;
  }

  /** Stribeck's curve: it falls from the one at rest to the one while it moves. */
  private double friction() {
    if (speed == 0.0 || stick == slide) {
      return stick;
    }
    double fast = speed / STRIBECK_PER_SECOND;
    return slide + (stick - slide) * StrictFastMath.exp(-fast * fast);
  }

  /** Held at a share of the travel by just so much air. */
  void hold(double at) {
    share = Math.max(least, Math.min(most, at));
    air = balance(share) * volume();
    speed = 0.0;
  }

  double least() {
    return least;
  }

  double most() {
    return most;
  }

  /** The share of the travel that air has made. */
  double share() {
    return share;
  }

  /** Shares of the travel per second. */
  double speed() {
    return speed;
  }
}
