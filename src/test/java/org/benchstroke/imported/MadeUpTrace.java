package org.benchstroke.imported;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Random;
import java.util.function.DoubleUnaryOperator;

/**
 * Writes the file of a logger that watched a made-up unit: it moves at one speed after a dead time,
 * and rests where it is told to. A row every 100 ms; noise by a seed.
 */
final class MadeUpTrace {
  static final double PERIOD = 0.1;

  /** Where it rests for a setpoint, approached up (+1) or down (−1), %. */
  interface Rests {
    double at(double setpoint, int side);
  }

  /** One row, before it is written. */
  static final class Row {
    double seconds;
    double setpoint;
    double position;

    Row(double seconds, double setpoint, double position) {
      this.seconds = seconds;
      this.setpoint = setpoint;
      this.position = position;
    }

    String text() {
      return String.format(Locale.ROOT, "%.3f,%.3f,%.4f", seconds, setpoint, position);
    }
  }

  final List<Row> rows = new ArrayList<>();
  private final Random random;
  private double strokeSeconds = 15.0;
  private double deadSeconds = 0.2;
  private Rests rests = (setpoint, side) -> setpoint - 0.05 * side;
  private double setpoint;
  private double position;

  MadeUpTrace(long seed) {
    this.random = new Random(seed);
  }

  MadeUpTrace stroke(double seconds) {
    strokeSeconds = seconds;
    return this;
  }

  MadeUpTrace dead(double seconds) {
    deadSeconds = seconds;
    return this;
  }

  MadeUpTrace rests(Rests other) {
    rests = other;
    return this;
  }

  /** Goes to a setpoint and stays there, as long as a run would and a little longer. */
  MadeUpTrace to(double next) {
    return to(next, Math.abs(next - setpoint) / 100.0 * strokeSeconds + deadSeconds + 4.0);
  }

  MadeUpTrace to(double next, double seconds) {
    int side = (int) Math.signum(next - setpoint);
    double target = side == 0 ? position : rests.at(next, side);
    setpoint = next;
    double speed = 100.0 / strokeSeconds;
    for (int i = 0; i < Math.round(seconds / PERIOD); i++) {
      double moving = Math.max(0.0, i * PERIOD - deadSeconds);
      double way = Math.min(Math.abs(target - position), moving * speed);
      add(position + Math.signum(target - position) * way);
    }
    position = target;
    return this;
  }

  /** Adds samples at the setpoint in force, wherever the unit is. */
  MadeUpTrace add(double at) {
    double noise = 0.003 * random.nextGaussian();
    rows.add(new Row(rows.size() * PERIOD, setpoint, at + noise));
    return this;
  }

  /** Moves the setpoint evenly, a step each 0.5 s; the unit is where it is told to be for each. */
  MadeUpTrace ramp(double to, double percentPerSecond, DoubleUnaryOperator at) {
    double from = setpoint;
    long steps = Math.round(Math.abs(to - from) / percentPerSecond / 0.5);
    for (int step = 1; step <= steps; step++) {
      setpoint = from + (to - from) * step / steps;
      for (int i = 0; i < 5; i++) {
        add(at.applyAsDouble(setpoint));
      }
    }
    position = at.applyAsDouble(setpoint);
    return this;
  }

  /** The points up and down, from a stand at the first. */
  MadeUpTrace cycle(double... points) {
    for (int i = 1; i < points.length; i++) {
      to(points[i]);
    }
    for (int i = points.length - 2; i >= 0; i--) {
      to(points[i]);
    }
    return this;
  }

  List<String> lines() {
    List<String> lines = new ArrayList<>(List.of("time [s],setpoint [%],position [%]"));
    rows.forEach(row -> lines.add(row.text()));
    return lines;
  }
}
