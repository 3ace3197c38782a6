package org.benchstroke.run;

import java.util.Optional;
import java.util.OptionalDouble;
import org.benchstroke.core.analysis.RestRule;
import org.benchstroke.core.analysis.Trace;
import org.benchstroke.core.quantity.Current;
import org.benchstroke.core.quantity.Position;
import org.benchstroke.io.instrument.LimitSwitch;
import org.benchstroke.io.instrument.Reading;
import org.benchstroke.record.Event;
import org.benchstroke.record.RunFault;
import org.benchstroke.unit.UnitType;

/** Waits until the unit has come to rest, by the rest rule. The runner's thread only. */
final class Settling implements Rest {
  /** Sent so far and not moved, a reading that never changes is no reading, % of travel. */
  private static final double SENT_PERCENT = 5.0;

  private final UnitType unit;
  private final RunLog log;
  private final Sampler sampler;
  private final Signal signal;
  private final RestRule rule;
  private final Preflight.Noise noise;
  private final ProgressLine progress;
  private final Optional<StemByEye> stem;
  private final Optional<Eye> switches;

  Settling(
      RunPlan plan,
      RunLog log,
      Sampler sampler,
      Signal signal,
      Preflight.Noise noise,
      ProgressLine progress,
      Optional<StemByEye> stem,
      Optional<Eye> switches) {
    this.unit = plan.unit();
    this.log = log;
    this.sampler = sampler;
    this.signal = signal;
    double period = plan.bench().samplePeriodSeconds();
    this.rule =
        new RestRule(
            unit.practice().restSamples(),
            unit.restWindowSeconds(period),
            unit.practice().restBandPercent(),
            period,
            noise.deviationPercent());
    this.noise = noise;
    this.progress = progress;
    this.stem = stem;
    this.switches = switches;
  }

  /** Samples until the rest rule is met. */
  @Override
  public Arrival await(Wait wait, String state) throws TestVoid, RunEnded {
    rule.restart();
    Trace.Builder seen = Trace.builder(64);
    while (true) {
      Reading<Position> reading = sampler.next();
      double percent = reading.value().percent();
      double half = (reading.answeredNanos() - reading.askedNanos()) / 2.0e9;
      seen.add(log.since(reading.stampNanos()) / 1.0e9, half, percent, false);
      Optional<RestRule.Window> window = rule.add(reading.stampNanos(), percent);
      double waited = wait.secondsAt(reading.answeredNanos());
      boolean near = Math.abs(percent - wait.targetPercent()) < 2.0;
      progress.reading(percent, state.equals("settling") && !near ? "moving" : state);
      boolean late = waited >= wait.timeoutSeconds();
      if (window.isPresent()
          && waited >= wait.earliestSeconds()
          && (late || followed(wait, window.get()))) {
        return settled(wait, window.get(), seen.build());
      }
      if (late) {
        log.write(rested(wait, false, false, wait.sinceNanos(), reading.answeredNanos()));
        return Arrival.none();
      }
    }
  }

  /** Whether it has moved, or need not: before its dead time is over every unit stands still. */
  private boolean followed(Wait wait, RestRule.Window window) {
    double asked =
        unit.positionAt(unit.currentAt(Position.ofPercent(wait.targetPercent()))).percent();
    return !wait.signalOn()
        || rule.moved()
        || Math.abs(asked - window.meanPercent()) <= unit.mustFollowPercent();
  }

  /** The same to the last bit for longer than a window. */
  private boolean unchanged(Trace seen) {
    return seen.size() >= 2 * unit.practice().restSamples()
        && seen.samples().stream().mapToDouble(Trace.Sample::percent).distinct().count() == 1;
  }

  private Arrival settled(Wait wait, RestRule.Window window, Trace seen) throws TestVoid, RunEnded {
    boolean sent = Math.abs(wait.targetPercent() - window.meanPercent()) > SENT_PERCENT;
    if ((noise.lively() && rule.frozen()) || (noise.flickers() && sent && unchanged(seen))) {
      String detail =
          "the position did not change by a single step, though it did so at rest before; check the"
              + " link and the transmitter";
      log.write(new Event.Faulted(RunFault.FROZEN_VALUE, "", detail));
      throw new TestVoid(RunFault.FROZEN_VALUE + ": " + detail);
    }
    sampler.requireLiveStem();
    boolean clean =
        RestRule.clean(
            wait.direction(),
            window.meanPercent(),
            seen.samples().stream().map(Trace.Sample::percent).toList(),
            unit.practice().overshootPercent(),
            noise.deviationPercent());
    log.write(rested(wait, true, clean, window.fromNanos(), window.toNanos()));
    progress.reading(window.meanPercent(), "at rest");
    Optional<Reading<Current>> loop = sampler.loop();
    if (wait.signalOn() && loop.isPresent()) {
      signal.compareLoop(wait.targetPercent(), loop.get());
    }
    boolean counts = clean && wait.readsAll();
    if (stem.isPresent() && counts) {
      stem.get().read(wait.label(), window.meanPercent(), rule.limitPercent());
    }
    if (switches.isPresent() && counts) {
      for (LimitSwitch each : SwitchesByEye.at(wait, switches.get().spec())) {
        switches.get().look(each, wait.label());
      }
      sampler.commanded();
    }
    return new Arrival(
        OptionalDouble.of(window.meanPercent()), clean, Optional.of(window.spread()), seen);
  }

  private Event.Rested rested(Wait wait, boolean settled, boolean clean, long from, long to) {
    return new Event.Rested(
        wait.label(),
        wait.leg(),
        wait.targetPercent(),
        wait.direction(),
        wait.cycle(),
        settled,
        clean,
        log.since(from),
        log.since(to),
        rule.limitPercent());
  }
}
