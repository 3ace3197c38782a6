package org.benchstroke.run;

import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.apache.commons.math3.stat.descriptive.SummaryStatistics;
import org.benchstroke.bench.BenchFit;
import org.benchstroke.bench.InstrumentSpec;
import org.benchstroke.core.clock.BenchClock;
import org.benchstroke.core.clock.Deadline;
import org.benchstroke.core.quantity.Current;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.core.quantity.Position;
import org.benchstroke.io.instrument.Doubt;
import org.benchstroke.io.instrument.Instrument;
import org.benchstroke.io.instrument.InstrumentException;
import org.benchstroke.io.instrument.Reading;
import org.benchstroke.io.instrument.Role;
import org.benchstroke.record.CheckNames;
import org.benchstroke.record.Event;
import org.benchstroke.unit.Limit;
import org.benchstroke.unit.MeasureKind;

/**
 * Is the bench fit, and is the loop sound? Nothing may move before every check has passed. The
 * runner's thread only.
 */
final class Preflight {
  /** A feedback further outside 0..100 % than this is no position. */
  private static final double OUTSIDE_PERCENT = 5.0;

  /** No wire and no polarity makes so much of a feedback. */
  private static final double NONSENSE_PERCENT = 1_000.0;

  private static final String LEFT_UNIT = "unit of the last run";

  /** So many different raw values in a window at rest show that the value is alive. */
  private static final int LIVELY_VALUES = 5;

  private final RunPlan plan;
  private final Bench bench;
  private final BenchClock clock;
  private final RunLog log;
  private final Sampler sampler;
  private final StopSwitch stop;
  private final CheckList checks;
  private final IdentityCheck identity;
  private final BenchFit fit;
  private final Optional<LoopByEye> loopByEye;

  /**
   * What the preflight found out about the position's noise.
   *
   * @param deviationPercent standard deviation at rest, %
   * @param flickers whether it changed at all
   * @param lively whether it moved by more than a few register steps, so that a constant value
   *     later would be a frozen one
   */
  record Noise(double deviationPercent, boolean flickers, boolean lively) {
    static final Noise UNKNOWN = new Noise(0.0, false, false);
  }

  Preflight(
      RunPlan plan,
      Bench bench,
      BenchClock clock,
      RunLog log,
      Sampler sampler,
      Operator operator,
      StopSwitch stop) {
    this.plan = plan;
    this.bench = bench;
    this.clock = clock;
    this.log = log;
    this.sampler = sampler;
    this.stop = stop;
    this.checks = new CheckList(log);
    this.identity = new IdentityCheck(plan.bench(), log, checks);
    this.fit = new BenchFit(plan.bench(), plan.unit());
    this.loopByEye =
        plan.bench()
            .playing(Role.LOOP_METER)
            .filter(InstrumentSpec::typedIn)
            .map(spec -> new LoopByEye(new Eye(spec, plan, clock, log, operator), plan));
  }

  /**
   * Opens the source and checks who it is, before any other instrument is asked: whatever becomes
   * of those, a source that is proven can be made safe.
   *
   * @return whether it may source; where not, {@link #identifyOthers()} ends the run
   */
  boolean proveSource() {
    // Nobody but a person vouches for a source that is set by hand.
    return bench.sourceInstrument().map(this::identify).orElse(true);
  }

  /**
   * Makes the unit safe that the last run may have left otherwise, which may still be connected; to
   * be done before anything else is sourced.
   */
  void makeSafe(Before.LeftUnit left) {
    Event.MadeSafe safe = new SafeSignal(bench, clock, left.safeSignal()).commandFirst();
    log.write(safe);
    String detail =
        "the unit of "
            + left.record()
            + " may not have been left safe, so its safe signal, "
            + left.safeSignal()
            + ", was put on first: "
            + safe.detail();
    if (safe.confirmed()) {
      checks.ok(LEFT_UNIT, detail, Map.of());
    } else {
      checks.block(LEFT_UNIT, detail);
    }
  }

  /** Makes a proven source safe; where that is not confirmed, the run ends with the checks. */
  void makeSafe(Event.MadeSafe safe) {
    log.write(safe);
    if (!safe.confirmed()) {
      checks.block("safe signal", safe.detail());
    }
  }

  /**
   * Opens all but the source and checks who they are; nothing is sourced.
   *
   * @throws RunEnded if one does not answer or is another one than the bench file says, the source
   *     included
   */
  void identifyOthers() throws RunEnded {
    for (Instrument instrument : bench.instruments()) {
      stop.check();
      if (bench.sourceInstrument().filter(source -> source == instrument).isEmpty()) {
        identify(instrument);
      }
    }
    plan.bench().instruments().stream().filter(InstrumentSpec::typedIn).forEach(identity::byEye);
    checks.endIfBlocked();
  }

  private boolean identify(Instrument instrument) {
    try {
      instrument.connect(deadline());
      return identity.compare(instrument, instrument.identify(deadline()));
    } catch (InstrumentException e) {
      checks.block(IdentityCheck.name(instrument), e.getMessage());
      return false;
    }
  }

  /**
   * Everything that can be checked without motion.
   *
   * @throws RunEnded if a check blocks motion; every other check has then been made too
   */
  Noise check() throws RunEnded {
    dueDates();
    accuracyRatio();
    sourceRange();
    checks.endIfBlocked();
    SupplyOff supplyOff =
        new SupplyOff(
            plan.unit(),
            log,
            sampler,
            bench.motorPower().isPresent(),
            RunEnded.How.PREFLIGHT_FAILED);
    if (bench.positionByEye().isEmpty()) {
      supplyOff.begin();
    }
    readback(supplyOff);
    supplyOff.stoodStill();
    Noise noise = noiseAtRest();
    checks.endIfBlocked();
    return noise;
  }

  private void dueDates() {
    LocalDate today = LocalDate.ofInstant(clock.utc(), ZoneOffset.UTC);
    for (InstrumentSpec spec : plan.bench().instruments()) {
      String name = CheckNames.calibration(spec.name());
      String certificate = "certificate " + spec.calibration().certificate();
      LocalDate due = spec.calibration().due();
      Optional<String> uncovered = spec.calibration().uncovered(today);
      if (uncovered.isPresent()) {
        String remedy =
            today.isAfter(due) ? "calibrate it first" : "set this machine's clock, or that date";
        checks.block(name, certificate + " " + uncovered.get() + "; " + remedy);
      } else {
        checks.ok(name, certificate + ", due " + due, Map.of());
      }
    }
  }

  private void accuracyRatio() {
    Optional<Limit> limit = plan.unit().limit(MeasureKind.TRAVEL_ERROR);
    if (limit.isEmpty()) {
      checks.warn(CheckNames.ACCURACY_RATIO, "no limit on the travel error is stated", Map.of());
      return;
    }
    BenchFit.AccuracyRatio found = fit.ratio(limit.get());
    double ratio = found.ratio();
    String detail = found.text();
    Map<String, Double> values =
        Map.of(CheckNames.RATIO, ratio, CheckNames.U_PERCENT, found.uncertaintyPercent());
    switch (plan.unit().practice().grade(ratio)) {
      case REFUSED ->
          checks.block(CheckNames.ACCURACY_RATIO, detail + "; use better instruments", values);
      case LOW ->
          checks.warn(
              CheckNames.ACCURACY_RATIO, detail + "; better instruments would be wise", values);
      case GOOD -> checks.ok(CheckNames.ACCURACY_RATIO, detail, values);
    }
  }

  private void sourceRange() {
    Current lowest = bench.source().lowest();
    Current highest = bench.source().highest();
    for (Current current : fit.outOfReach(lowest, highest)) {
      String range = lowest + " to " + highest;
      checks.block("source range", "the unit needs " + current + ", the source makes " + range);
    }
  }

  /**
   * Sets the two ends and the middle of the range and compares with what really flows. None of it
   * may move the unit.
   */
  private void readback(SupplyOff supplyOff) throws RunEnded {
    LoopCheck loop = new LoopCheck(plan.bench(), checks);
    for (Position position : BenchFit.PLACES) {
      stop.check();
      Current wanted = plan.unit().currentAt(position);
      try {
        Reading<Current> setting = bench.source().apply(wanted, deadline());
        settle(supplyOff);
        if (bench.loopMeter().isPresent()) {
          loop.compare(wanted, bench.loopMeter().get().read(deadline()).value());
        } else if (loopByEye.isPresent()) {
          loop.compare(wanted, loopByEye.get().read(wanted));
        } else {
          loop.unmeasured(wanted, setting.value());
        }
        supplyOff.under(wanted, setting.answeredNanos());
      } catch (InstrumentException e) {
        checks.block(LoopCheck.name(wanted), e.getMessage());
      }
    }
    loopByEye.ifPresent(eye -> eye.note(checks));
    makeSafe(new SafeSignal(bench, clock, plan.unit()).command());
  }

  private Noise noiseAtRest() throws RunEnded {
    if (bench.positionByEye().isPresent()) {
      String why = "not looked at: the position is read by a person at points of rest only";
      checks.warn(CheckNames.NOISE_AT_REST, why, Map.of());
      return Noise.UNKNOWN;
    }
    SummaryStatistics statistics = new SummaryStatistics();
    List<String> raw = new ArrayList<>();
    boolean saturated = false;
    sampler.restart(false);
    try {
      for (int i = 0; i < plan.unit().practice().restSamples(); i++) {
        Reading<Position> reading = sampler.next();
        statistics.addValue(reading.value().percent());
        raw.add(reading.raw());
        saturated |= reading.is(Doubt.SATURATED);
      }
    } catch (TestVoid e) {
      checks.block(CheckNames.NOISE_AT_REST, e.getMessage());
      return Noise.UNKNOWN;
    } catch (RunEnded e) {
      double last = sampler.last().map(r -> r.value().percent()).orElse(0.0);
      double before = statistics.getN() > 0 ? statistics.getMean() : last;
      double worst = Math.abs(last) > Math.abs(before) ? last : before;
      if (e.how() != RunEnded.How.FAULT || !impossible(worst)) {
        throw e;
      }
      checks.block(CheckNames.NOISE_AT_REST, reads(worst), Map.of(CheckNames.MEAN_PERCENT, worst));
      return Noise.UNKNOWN;
    }
    noteNoise(statistics, saturated);
    long different = raw.stream().distinct().count();
    return new Noise(statistics.getStandardDeviation(), different > 1, different >= LIVELY_VALUES);
  }

  private void noteNoise(SummaryStatistics statistics, boolean saturated) {
    double deviation = statistics.getStandardDeviation();
    double mean = statistics.getMean();
    double allowed = plan.unit().practice().noiseShare() * plan.unit().deadBandPercent();
    Map<String, Double> values =
        Map.of(CheckNames.DEVIATION_PERCENT, deviation, CheckNames.MEAN_PERCENT, mean);
    String detail =
        "standard deviation "
            + Numbers.significant(deviation, 2)
            + " %, allowed is "
            + Numbers.significant(allowed, 2)
            + " %";
    if (saturated || impossible(mean)) {
      checks.block(CheckNames.NOISE_AT_REST, reads(mean), values);
    } else if (deviation > allowed) {
      checks.block(
          CheckNames.NOISE_AT_REST,
          detail + "; screen the signal lines, keep power cables away",
          values);
    } else {
      checks.ok(CheckNames.NOISE_AT_REST, detail, values);
    }
  }

  private static boolean impossible(double percent) {
    return percent < -OUTSIDE_PERCENT || percent > 100.0 + OUTSIDE_PERCENT;
  }

  private static String reads(double percent) {
    boolean nonsense = Math.abs(percent) > NONSENSE_PERCENT;
    return "the feedback reads "
        + (nonsense ? "nonsense" : Numbers.fixed(percent, 1) + " %")
        + ": a dead wire, wrong polarity, or a scale or word order that is not the one in"
        + " the bench file";
  }

  /** Waits for the loop; a unit that may be fed from elsewhere is watched meanwhile. */
  private void settle(SupplyOff supplyOff) throws RunEnded {
    long until = clock.nanos() + (long) (plan.unit().practice().loopSettleSeconds() * 1e9);
    double periods =
        plan.unit().practice().loopSettleSeconds() / plan.bench().samplePeriodSeconds();
    supplyOff.watch((int) periods);
    try {
      clock.waitUntil(until);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new RunEnded(RunEnded.How.STOPPED, "the program was asked to end");
    }
  }

  private Deadline deadline() {
    return Deadline.inWall(clock, bench.replyNanos());
  }
}
