package org.benchstroke.core.analysis;

import java.util.List;
import org.benchstroke.core.analysis.StepShape.Kind;

/**
 * How far each shape has gone at a time after the step, for its parameters: the shape's own first,
 * then the position before and the change. Pure functions.
 */
final class ShapeModel {
  private static final double CRITICAL = 1.0e-6;

  private ShapeModel() {}

  static List<String> names(Kind kind) {
    return switch (kind) {
      case CONSTANT_SPEED -> List.of("dead time", "speed", "coast", "before", "change");
      case FIRST_ORDER -> List.of("dead time", "time constant", "before", "change");
      case SECOND_ORDER ->
          List.of("dead time", "damping ratio", "natural frequency", "before", "change");
    };
  }

  static String unit(String name) {
    return switch (name) {
      case "dead time", "coast", "time constant" -> "s";
      case "speed" -> "%/s";
      case "natural frequency" -> "rad/s";
      case "damping ratio" -> "";
      default -> "%";
    };
  }

  /** The position, in the direction of the step. */
  static double at(Kind kind, double[] p, double seconds) {
    double before = p[p.length - 2];
    double change = p[p.length - 1];
    double t = seconds - p[0];
    if (t <= 0.0) {
      return before;
    }
    return before
        + switch (kind) {
          case CONSTANT_SPEED -> ramp(t, p[1], p[2], change);
          case FIRST_ORDER -> change * -Math.expm1(-t / p[1]);
          case SECOND_ORDER -> change * secondOrder(t, p[1], p[2]);
        };
  }

  /** At speed, then slowing down evenly over the coast until the change is made. */
  private static double ramp(double t, double speed, double coast, double change) {
    double atSpeed = change / speed - coast / 2.0;
    if (t <= atSpeed) {
      return speed * t;
    }
    double left = atSpeed + coast - t;
    return left <= 0.0 ? change : change - speed * left * left / (2.0 * coast);
  }

  /** The unit step response (any text on control; closed forms seen in one). */
  private static double secondOrder(double t, double zeta, double omega) {
    double decay = zeta * omega;
    double inner = zeta * zeta - 1.0;
    if (Math.abs(inner) < CRITICAL) {
      return 1.0 - Math.exp(-decay * t) * (1.0 + decay * t);
    }
    double root = omega * Math.sqrt(Math.abs(inner));
    if (inner < 0.0) {
      return 1.0 - Math.exp(-decay * t) * (Math.cos(root * t) + decay / root * Math.sin(root * t));
    }
    double slow = decay - root;
    double fast = decay + root;
    return 1.0 + (slow * Math.exp(-fast * t) - fast * Math.exp(-slow * t)) / (fast - slow);
  }
}
