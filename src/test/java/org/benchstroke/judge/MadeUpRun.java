package org.benchstroke.judge;

import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.SplittableRandom;
import java.util.function.DoubleUnaryOperator;
import org.benchstroke.io.instrument.LimitSwitch;
import org.benchstroke.procedure.Aim;
import org.benchstroke.record.Entry;
import org.benchstroke.record.Event;
import org.benchstroke.record.Leg;
import org.benchstroke.record.StepId;

/**
 * Writes the lines of a test whose motion is known in closed form, as a bench would read it: with
 * noise, steps of the reading, exchanges that take time and a transmitter that is off. One thread.
 */
public final class MadeUpRun {
  private final List<Entry> entries = new ArrayList<>();
  private final List<Aim> aims = new ArrayList<>();
  private final SplittableRandom random;
  private final double period;
  private final double exchange;
  private final double noise;
  private final double resolution;
  private final DoubleUnaryOperator transmitter;
  private long number;

  /**
   * A run.
   *
   * @param period between two samples, s
   * @param exchange how long one takes; the value is of any instant within, s
   * @param noise standard deviation, %
   * @param resolution the step of the reading, %
   * @param transmitter what it shows for a position
   */
  public MadeUpRun(
      SplittableRandom random,
      double period,
      double exchange,
      double noise,
      double resolution,
      DoubleUnaryOperator transmitter) {
    this.random = random;
    this.period = period;
    this.exchange = exchange;
    this.noise = noise;
    this.resolution = resolution;
    this.transmitter = transmitter;
  }

  public static long nanos(double seconds) {
    return Math.round(seconds * 1.0e9);
  }

  public void add(Event event, double seconds) {
    entries.add(new Entry(++number, nanos(seconds), Instant.EPOCH, event));
  }

  private void add(Aim aim, Event event, double seconds) {
    if (!aims.contains(aim)) {
      aims.add(aim);
    }
    StepId step = new StepId(0, 1, aims.indexOf(aim), 1);
    entries.add(new Entry(++number, nanos(seconds), Instant.EPOCH, Optional.of(step), event));
  }

  public void command(double setpoint, double asked, double answered) {
    double milliamps = 4.0 + 0.16 * setpoint;
    add(
        new Event.Commanded(setpoint, milliamps, milliamps, nanos(asked), nanos(answered)),
        answered);
  }

  public double period() {
    return period;
  }

  /** One sample; returns when its exchange was over. */
  public double one(double at, DoubleUnaryOperator position) {
    sample(at, at + period / 2.0, position);
    return at + exchange;
  }

  /** What a switch shows at an instant. */
  public void made(LimitSwitch which, boolean made, double at) {
    String channel = "switch " + which.key();
    add(new Event.Sampled(channel, made ? 1.0 : 0.0, "made", "good", "", nanos(at), nanos(at)), at);
  }

  /** A reading of the supply's voltage. */
  public void volts(double at, double value) {
    double shown = Math.rint(value * 1000.0) / 1000.0;
    add(
        new Event.Sampled("supply", shown, "V", "good", "", nanos(at), nanos(at + exchange)),
        at + exchange);
  }

  public void rested(Aim aim, double setpoint, int cycle, double from, double to) {
    add(
        aim,
        new Event.Rested(
            aim.words(),
            Leg.ARRIVAL,
            setpoint,
            "none",
            cycle,
            true,
            true,
            nanos(from),
            nanos(to),
            0.05),
        to);
  }

  /** Samples from one instant until another; returns the first that was due then. */
  public double sample(double from, double until, DoubleUnaryOperator position) {
    double at = from;
    while (at < until) {
      double taken = at + random.nextDouble() * exchange;
      double shown =
          transmitter.applyAsDouble(position.applyAsDouble(taken)) + noise * random.nextGaussian();
      double rounded = resolution > 0.0 ? Math.rint(shown / resolution) * resolution : shown;
      add(
          new Event.Sampled("position", rounded, "%", "good", "", nanos(at), nanos(at + exchange)),
          at + exchange);
      at += period;
    }
    return at;
  }

  public void watched(Aim aim, double setpoint, double from, double to) {
    add(aim, new Event.Watched(aim.words(), setpoint, true, "", nanos(from), nanos(to)), to);
  }

  public List<Entry> entries() {
    return List.copyOf(entries);
  }

  public Optional<Chapter> attempt(String test) {
    return Optional.of(new Chapter(0, test, aims, entries, Chapter.COMPLETE, ""));
  }
}
