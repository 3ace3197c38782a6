package org.benchstroke.run;

import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import org.apache.commons.math3.stat.descriptive.SummaryStatistics;
import org.benchstroke.bench.InstrumentSpec;
import org.benchstroke.bench.Limit;
import org.benchstroke.bench.MeasureKind;
import org.benchstroke.bench.PositionBudget;
import org.benchstroke.bench.UnitType;
import org.benchstroke.clock.BenchClock;
import org.benchstroke.clock.Deadline;
import org.benchstroke.instrument.Channel;
import org.benchstroke.instrument.Identity;
import org.benchstroke.instrument.Instrument;
import org.benchstroke.instrument.InstrumentException;
import org.benchstroke.instrument.Quality;
import org.benchstroke.instrument.Reading;
import org.benchstroke.instrument.Role;
import org.benchstroke.quantity.Current;
import org.benchstroke.quantity.Numbers;
import org.benchstroke.quantity.Position;
import org.benchstroke.record.Event;
import org.benchstroke.uncertainty.Budget;

/**
 * Is the bench fit, and is the loop sound? Nothing may move before every check has passed. The
 * runner's thread only.
 */
final class Preflight {
  private static final double[] READBACK_PERCENT = {0.0, 50.0, 100.0};
  private static final double LOOP_SETTLE_SECONDS = 0.5;
  private static final double COVERAGE = 0.95;

  private final RunPlan plan;
  private final Bench bench;
  private final BenchClock clock;
  private final RunLog log;
  private final Sampler sampler;
  private final StopSwitch stop;
  private final List<String> blocks = new ArrayList<>();

  /**
   * What the preflight found out about the position's noise.
   *
   * @param deviationPercent standard deviation at rest, %
   * @param lively whether it moved by more than a few register steps, so that a constant value
   *     later would be a frozen one
   */
  record Noise(double deviationPercent, boolean lively) {}

  Preflight(
      RunPlan plan, Bench bench, BenchClock clock, RunLog log, Sampler sampler, StopSwitch stop) {
    this.plan = plan;
    this.bench = bench;
    this.clock = clock;
    this.log = log;
    this.sampler = sampler;
    this.stop = stop;
  }

  /**
   * Opens the instruments and checks who they are; nothing is sourced.
   *
   * @throws RunEnded if one does not answer or is another one than the bench file says
   */
  void identify() throws RunEnded {
    for (Instrument instrument : bench.instruments()) {
      stop.check();
      InstrumentSpec spec = spec(instrument);
      try {
        instrument.connect(deadline());
        note(instrument.identify(deadline()), spec);
      } catch (InstrumentException e) {
        check("identity of " + spec.name(), "blocks", e.getMessage(), Map.of());
      }
    }
    endIfBlocked();
  }

  private void note(Optional<Identity> identity, InstrumentSpec spec) {
    String found = identity.map(Identity::raw).orElse("");
    boolean matches = identity.isPresent() && matches(identity.get(), spec);
    log.write(new Event.Identified(spec.name(), spec.expected(), found, matches));
    String name = "identity of " + spec.name();
    boolean simulator = found.toLowerCase(Locale.ROOT).contains("simulated");
    if (identity.isEmpty()) {
      check(name, "warning", "it can't tell; compare its label with " + spec.expected(), Map.of());
    } else if (!matches) {
      check(
          name,
          "blocks",
          "found " + found + ", the bench file says " + spec.expected() + ": another instrument",
          Map.of());
    } else if (simulator && plan.bench().simulation().isEmpty()) {
      check(
          name,
          "blocks",
          "it is a simulated one, but the bench file has no [simulation] table",
          Map.of());
    } else {
      check(name, "ok", found, Map.of());
    }
  }

  /** Fields that either side leaves out are not compared; the serial number always is. */
  private static boolean matches(Identity found, InstrumentSpec spec) {
    return found.serial().equals(spec.serial())
        && (found.maker().isEmpty() || spec.maker().isEmpty() || found.maker().equals(spec.maker()))
        && (found.model().isEmpty()
            || spec.model().isEmpty()
            || found.model().equals(spec.model()));
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
    endIfBlocked();
    readback();
    Noise noise = noiseAtRest();
    endIfBlocked();
    return noise;
  }

  private void dueDates() {
    LocalDate today = LocalDate.ofInstant(clock.utc(), ZoneOffset.UTC);
    for (InstrumentSpec spec : plan.bench().instruments()) {
      LocalDate due = spec.calibration().due();
      boolean over = today.isAfter(due);
      check(
          "calibration of " + spec.name(),
          over ? "blocks" : "ok",
          "certificate "
              + spec.calibration().certificate()
              + (over ? " was due on " + due + "; calibrate it first" : ", due " + due),
          Map.of());
    }
  }

  private void accuracyRatio() {
    Optional<Limit> limit = plan.unit().limit(MeasureKind.TRAVEL_ERROR);
    if (limit.isEmpty()) {
      check("accuracy ratio", "warning", "no limit on the travel error is stated", Map.of());
      return;
    }
    double tolerance =
        Math.min(
            Math.abs(limit.get().low().orElse(Double.POSITIVE_INFINITY)),
            Math.abs(limit.get().high().orElse(Double.POSITIVE_INFINITY)));
    double worst = 0.0;
    for (double percent : READBACK_PERCENT) {
      Position at = Position.ofPercent(percent);
      Budget budget = new Budget("%", PositionBudget.feedback(plan.bench(), plan.unit(), at));
      worst = Math.max(worst, budget.expand(COVERAGE).half());
    }
    double ratio = tolerance / worst;
    boolean refused = ratio < plan.unit().practice().ratioRefuse();
    boolean poor = ratio < plan.unit().practice().ratioWarn();
    check(
        "accuracy ratio",
        refused ? "blocks" : poor ? "warning" : "ok",
        Numbers.fixed(ratio, 1)
            + " : 1 (limit "
            + limit.get().text()
            + ", U of the instruments "
            + Numbers.significant(worst, 2)
            + " %)"
            + (poor ? "; use better instruments" : ""),
        Map.of("ratio", ratio, "uPercent", worst));
  }

  private void sourceRange() {
    UnitType unit = plan.unit();
    List<Current> needed =
        List.of(
            unit.signal().zero(),
            unit.signal().full(),
            unit.safeSignal(),
            unit.signalLoss().holdsMilliamps(),
            unit.signalLoss().lostMilliamps());
    for (Current current : needed) {
      boolean reached =
          current.compareTo(bench.source().lowest()) >= 0
              && current.compareTo(bench.source().highest()) <= 0;
      if (!reached) {
        String range = bench.source().lowest() + " to " + bench.source().highest();
        check(
            "source range",
            "blocks",
            "the unit needs " + current + ", the source makes " + range,
            Map.of());
      }
    }
  }

  /** Sets the two ends and the middle of the range and compares with what really flows. */
  private void readback() throws RunEnded {
    for (double percent : READBACK_PERCENT) {
      stop.check();
      Current wanted = plan.unit().signal().currentAt(Position.ofPercent(percent));
      String name = "loop at " + Numbers.plain(wanted.milliamps()) + " mA";
      try {
        Reading<Current> setting = bench.source().apply(wanted, deadline());
        pause(LOOP_SETTLE_SECONDS);
        if (bench.loopMeter().isEmpty()) {
          check(
              name,
              "warning",
              "no loop meter: only the source's own setting was read, " + setting.value(),
              Map.of("settingMilliamps", setting.value().milliamps()));
        } else {
          compare(name, wanted, bench.loopMeter().get().read(deadline()).value());
        }
      } catch (InstrumentException e) {
        check(name, "blocks", e.getMessage(), Map.of());
      }
    }
    restoreSafe();
  }

  private void compare(String name, Current wanted, Current found) {
    double allowed =
        halfWidth(Role.SIGNAL_SOURCE, wanted.milliamps())
            + halfWidth(Role.LOOP_METER, wanted.milliamps());
    double off = found.milliamps() - wanted.milliamps();
    boolean agrees = Math.abs(off) <= allowed;
    String detail =
        "the loop carries "
            + found
            + ", allowed is "
            + wanted
            + " ± "
            + Numbers.significant(allowed, 2)
            + " mA";
    check(
        name,
        agrees ? "ok" : "blocks",
        agrees ? detail : detail + cause(found, off),
        Map.of("wantedMilliamps", wanted.milliamps(), "foundMilliamps", found.milliamps()));
  }

  /** A current that is too low is what the source's voltage can drive through the loop. */
  private String cause(Current found, double off) {
    var volts = plan.bench().playing(Role.SIGNAL_SOURCE).orElseThrow().complianceVolts();
    if (off > 0) {
      return "; more than was set: look for a second source or an earth fault in the loop";
    }
    if (found.milliamps() < 0.1) {
      return "; hardly anything flows: the loop is open or its polarity is wrong";
    }
    if (volts.isEmpty()) {
      return "; the loop resistance may be too high: measure it";
    }
    return "; the loop resistance is too high: with "
        + Numbers.plain(volts.getAsDouble())
        + " V that is "
        + Numbers.fixed(volts.getAsDouble() / found.amps(), 0)
        + " Ω; lower it or use a source with more voltage";
  }

  private double halfWidth(Role role, double milliamps) {
    Channel channel = plan.bench().playing(role).orElseThrow().channels().get(role);
    return channel.accuracy().halfWidthAt(milliamps) + channel.resolution();
  }

  private Noise noiseAtRest() throws RunEnded {
    int samples = plan.unit().practice().restSamples();
    SummaryStatistics statistics = new SummaryStatistics();
    List<String> raw = new ArrayList<>();
    boolean saturated = false;
    sampler.restart(false);
    try {
      for (int i = 0; i < samples; i++) {
        stop.check();
        Reading<Position> reading = sampler.next();
        statistics.addValue(reading.value().percent());
        raw.add(reading.raw());
        saturated |= reading.quality() == Quality.SATURATED;
      }
    } catch (TestVoid e) {
      check("noise at rest", "blocks", e.getMessage(), Map.of());
      return new Noise(0.0, false);
    }
    double deviation = statistics.getStandardDeviation();
    double allowed = plan.unit().practice().noiseShare() * plan.unit().deadBandPercent();
    double mean = statistics.getMean();
    boolean dead = saturated || mean < -5.0 || mean > 105.0;
    boolean quiet = deviation <= allowed;
    check(
        "noise at rest",
        quiet && !dead ? "ok" : "blocks",
        dead
            ? "the feedback reads " + Numbers.fixed(mean, 1) + " %: a dead wire or wrong polarity"
            : "standard deviation "
                + Numbers.significant(deviation, 2)
                + " %, allowed is "
                + Numbers.significant(allowed, 2)
                + " %"
                + (quiet ? "" : "; screen the signal lines, keep power cables away"),
        Map.of("deviationPercent", deviation, "meanPercent", mean));
    return new Noise(deviation, raw.stream().distinct().count() >= 5);
  }

  private void restoreSafe() {
    Event.MadeSafe safe = new SafeSignal(bench, clock, plan.unit()).command();
    log.write(safe);
    if (!safe.confirmed()) {
      check("safe signal", "blocks", safe.detail(), Map.of());
    }
  }

  private void pause(double seconds) throws RunEnded {
    try {
      clock.waitUntil(clock.nanos() + (long) (seconds * 1e9));
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new RunEnded(RunEnded.How.STOPPED, "the program was asked to end");
    }
  }

  private void check(String name, String outcome, String detail, Map<String, Double> values) {
    log.write(new Event.Checked(name, outcome, detail, values));
    if (outcome.equals("blocks")) {
      blocks.add(name + ": " + detail);
    }
  }

  private void endIfBlocked() throws RunEnded {
    if (!blocks.isEmpty()) {
      throw new RunEnded(RunEnded.How.PREFLIGHT_FAILED, String.join("; ", blocks));
    }
  }

  private InstrumentSpec spec(Instrument instrument) {
    return plan.bench().instruments().stream()
        .filter(spec -> spec.name().equals(instrument.name()))
        .findFirst()
        .orElseThrow();
  }

  private Deadline deadline() {
    return Deadline.inWall(clock, bench.replyNanos());
  }
}
