package org.benchstroke.core.analysis;

import java.util.Random;
import java.util.function.DoublePredicate;

/**
 * A unit whose answer to a step is known in closed form, and readings of it with noise, rounding
 * and stamps that are off; all from one seed.
 */
record SteppedUnit(
    Kind kind,
    double from,
    double to,
    double deadSeconds,
    double speed,
    double coastSeconds,
    double tau,
    double zeta,
    double omega,
    double steadyError,
    Sampling sampling) {

  enum Kind {
    CONSTANT_SPEED,
    FIRST_ORDER,
    SECOND_ORDER
  }

  record Sampling(
      double period,
      double noise,
      double resolution,
      double stampHalf,
      double stepHalf,
      boolean sameStampError) {}

  private static final double STEP_AT = 3.0;
  private static final int WINDOWS = 100;

  static SteppedUnit random(Kind kind, Random random) {
    double size = logUniform(random, 0.5, 50.0);
    double sign = random.nextBoolean() ? 1.0 : -1.0;
    double noise = logUniform(random, 0.002, 0.02) * Math.min(1.0, size / 2.0);
    double resolution =
        random.nextInt(3) == 0 ? 0.0 : logUniform(random, 0.002, 0.05) * Math.min(1.0, size / 3.0);
    double speed = 100.0 / logUniform(random, 5.0, 60.0);
    double tau = logUniform(random, 0.2, 3.0);
    double zeta = 0.3 + 1.2 * random.nextDouble();
    double omega = logUniform(random, 1.0, 8.0);
    double length =
        switch (kind) {
          case CONSTANT_SPEED -> size / speed;
          case FIRST_ORDER -> tau;
          case SECOND_ORDER -> 1.5 / omega;
        };
    double dead = 0.1 + 0.4 * random.nextDouble();
    double coarsest = random.nextInt(4) == 0 ? length : Math.min(length, 2.0 * dead);
    double period = coarsest / logUniform(random, 4.0, 100.0);
    double coast = random.nextDouble() * 0.5 * size / speed;
    Sampling sampling =
        new Sampling(
            period,
            noise,
            resolution,
            period * 0.2 * random.nextDouble(),
            period * 0.3 * random.nextDouble(),
            random.nextBoolean());
    double error = (random.nextDouble() - 0.5) * 0.02 * size;
    double middle = 25.0 + 50.0 * random.nextDouble();
    double from = middle - sign * size / 2.0;
    return new SteppedUnit(
        kind, from, from + sign * size, dead, speed, coast, tau, zeta, omega, error, sampling);
  }

  private static double logUniform(Random random, double low, double high) {
    return low * Math.pow(high / low, random.nextDouble());
  }

  /** What it really moves by, ≥ 0. */
  double change() {
    return Math.abs(to + steadyError - from);
  }

  double sign() {
    return to > from ? 1.0 : -1.0;
  }

  /** How far it has gone at a time after the step, 0..change and beyond, %. */
  double gone(double seconds) {
    double t = seconds - deadSeconds;
    if (t <= 0.0) {
      return 0.0;
    }
    return switch (kind) {
      case CONSTANT_SPEED -> ramp(t);
      case FIRST_ORDER -> change() * -Math.expm1(-t / tau);
      case SECOND_ORDER -> change() * secondOrder(t);
    };
  }

  /** At speed until the coast, which slows down evenly and ends at the change. */
  private double ramp(double t) {
    double atSpeed = change() / speed - coastSeconds / 2.0;
    if (t <= atSpeed) {
      return speed * t;
    }
    double left = Math.max(0.0, atSpeed + coastSeconds - t);
    return coastSeconds == 0.0 ? change() : change() - speed * left * left / (2.0 * coastSeconds);
  }

  /** Source: any text on control, e.g. Ogata, transient response of second-order systems. */
  private double secondOrder(double t) {
    double decay = zeta * omega;
    if (zeta < 1.0) {
      double damped = omega * Math.sqrt(1.0 - zeta * zeta);
      return 1.0
          - Math.exp(-decay * t) * (Math.cos(damped * t) + decay / damped * Math.sin(damped * t));
    }
    double root = omega * Math.sqrt(Math.max(1.0e-12, zeta * zeta - 1.0));
    double slow = decay - root;
    double fast = decay + root;
    return 1.0 + (slow * Math.exp(-fast * t) - fast * Math.exp(-slow * t)) / (fast - slow);
  }

  /** When it has surely come to rest, after the step, s. */
  double restSeconds() {
    return deadSeconds
        + switch (kind) {
          case CONSTANT_SPEED -> change() / speed + coastSeconds;
          case FIRST_ORDER -> 12.0 * tau;
          case SECOND_ORDER -> 12.0 / (omega * Math.min(zeta, 1.0 / (2.0 * zeta)));
        };
  }

  /** The first instant after the step with a property, to 1e-12 s, by halving. */
  double first(double limit, DoublePredicate holds) {
    int grid = 20_000;
    for (int i = 1; i <= grid; i++) {
      double t = limit * i / grid;
      if (holds.test(t)) {
        return halved(limit * (i - 1) / grid, t, holds);
      }
    }
    throw new IllegalStateException("it never does");
  }

  /** The last instant before which a property does not hold. */
  double lastNot(double limit, DoublePredicate holds) {
    int grid = 20_000;
    for (int i = grid; i > 0; i--) {
      double t = limit * (i - 1) / grid;
      if (!holds.test(t)) {
        return halved(t, limit * i / grid, holds);
      }
    }
    throw new IllegalStateException("it always does");
  }

  private static double halved(double not, double does, DoublePredicate holds) {
    double low = not;
    double high = does;
    while (high - low > 1.0e-12) {
      double middle = (low + high) / 2.0;
      if (holds.test(middle)) {
        high = middle;
      } else {
        low = middle;
      }
    }
    return high;
  }

  double reaches(double gone) {
    return first(restSeconds(), t -> gone(t) >= gone);
  }

  double staysWithin(double band) {
    return lastNot(restSeconds() + 1.0, t -> Math.abs(gone(t) - change()) <= band);
  }

  /** The furthest beyond its end, %; only a second-order response goes there. */
  double overshoot() {
    return kind == Kind.SECOND_ORDER && zeta < 1.0
        ? change() * Math.exp(-Math.PI * zeta / Math.sqrt(1.0 - zeta * zeta))
        : 0.0;
  }

  /** The largest speed of straight lines through samples over some length, wherever, %/s. */
  double fastest(double window) {
    double fastest = 0.0;
    int samples = (int) Math.round(window / sampling.period()) + 1;
    double begin = reaches(0.1 * change()) - window;
    double end = reaches(0.9 * change());
    for (int i = 0; i <= WINDOWS; i++) {
      double from = begin + (end - begin) * i / WINDOWS;
      fastest = Math.max(fastest, lineSlope(from, window, samples));
    }
    return fastest;
  }

  private double lineSlope(double from, double window, int samples) {
    double up = 0.0;
    double squares = 0.0;
    for (int i = 0; i < samples; i++) {
      double x = window * (i / (samples - 1.0) - 0.5);
      up += x * gone(from + window / 2.0 + x);
      squares += x * x;
    }
    return up / squares;
  }

  PositionNoise noise() {
    return new PositionNoise(sampling.noise(), sampling.resolution());
  }

  Step step(double band) {
    return new Step(STEP_AT, sampling.stepHalf(), from, to, band, noise(), 3.0 * sampling.period());
  }

  Trace read(Random random) {
    double really = STEP_AT + sampling.stepHalf() * symmetric(random);
    double same = symmetric(random);
    double period = sampling.period();
    double begin = STEP_AT - period * (25.0 + random.nextDouble());
    double end = STEP_AT + restSeconds() + Math.max(0.2 * restSeconds(), 60.0 * period);
    int count = (int) ((end - begin) / period);
    Trace.Builder trace = Trace.builder(count);
    for (int i = 0; i < count; i++) {
      double stamp = begin + i * period;
      double off = sampling.sameStampError() ? same : symmetric(random);
      double taken = stamp + off * sampling.stampHalf();
      double at = from + sign() * gone(taken - really) + sampling.noise() * random.nextGaussian();
      trace.add(stamp, sampling.stampHalf(), rounded(at), false);
    }
    return trace.build();
  }

  private double rounded(double percent) {
    double q = sampling.resolution();
    return q == 0.0 ? percent : Math.rint(percent / q) * q;
  }

  private static double symmetric(Random random) {
    return 2.0 * random.nextDouble() - 1.0;
  }
}
