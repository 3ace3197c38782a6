package org.benchstroke.run;

import java.util.EnumMap;
import java.util.Map;
import java.util.Optional;
import org.benchstroke.core.analysis.Conversion;
import org.benchstroke.core.clock.BenchClock;
import org.benchstroke.core.clock.Deadline;
import org.benchstroke.core.quantity.Angle;
import org.benchstroke.core.quantity.Current;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.core.quantity.Position;
import org.benchstroke.core.quantity.Voltage;
import org.benchstroke.io.instrument.Doubt;
import org.benchstroke.io.instrument.InstrumentException;
import org.benchstroke.io.instrument.LimitSwitch;
import org.benchstroke.io.instrument.Reading;
import org.benchstroke.record.Event;
import org.benchstroke.record.RunFault;
import org.benchstroke.unit.UnitType;

/**
 * Reads the bench once a sample period, writes what it read, and guards it: a gap or an impossible
 * slew is named and never bridged. A switch is written when it is first read, at each change, and
 * when it had to be asked again; between two such lines it was read unchanged with every position.
 * The runner's thread only.
 */
final class Sampler {
  /** A step of this much is within what noise and a register's step can do, %. */
  private static final double SLEW_MARGIN_PERCENT = 0.5;

  /** So many readings after a jump its rate must be known: some values of the slowest one. */
  private static final int DOUBTFUL_READINGS = 8 * Conversion.MOST_READINGS;

  /** So many readings alike to the last digit are no chance. */
  private static final int STOOD = 8;

  private final Bench bench;
  private final RunLog log;
  private final BenchClock clock;
  private final UnitType unit;
  private final StopSwitch stop;
  private final DutyWatch duty;
  private final WatchdogFeed feed;
  private final long periodNanos;
  private final Map<LimitSwitch, Boolean> lastSwitches = new EnumMap<>(LimitSwitch.class);
  private Optional<Reading<Position>> last = Optional.empty();
  private Optional<Reading<Position>> beforeLast = Optional.empty();
  private Optional<Reading<Angle>> lastAngle = Optional.empty();
  private Optional<Reading<Voltage>> lastSupply = Optional.empty();
  private SamplingRound round;
  private StemWatch stem = new StemWatch();
  private final Conversion conversion = new Conversion();
  private Optional<String> doubted = Optional.empty();
  private int doubtful;
  private int same;
  private long excusedNanos;
  private long heldBefore;
  private boolean measuring;
  private long nextTick;

  Sampler(
      Bench bench,
      RunLog log,
      BenchClock clock,
      UnitType unit,
      double periodSeconds,
      StopSwitch stop,
      DutyWatch duty,
      WatchdogFeed feed) {
    this.bench = bench;
    this.log = log;
    this.clock = clock;
    this.unit = unit;
    this.stop = stop;
    this.duty = duty;
    this.feed = feed;
    this.periodNanos = (long) (periodSeconds * 1e9);
    this.round = new SamplingRound(bench, this::deadline);
  }

  /**
   * Begins a new series: what lies between it and the one before is not a gap.
   *
   * @param measures whether figures will be taken from it, so that a gap makes them void
   */
  void restart(boolean measures) {
    feed.restart();
    measuring = measures;
    last = Optional.empty();
    beforeLast = Optional.empty();
    lastAngle = Optional.empty();
    lastSupply = Optional.empty();
    same = 1;
    stem = new StemWatch();
    round = new SamplingRound(bench, this::deadline);
    excusedNanos = 0;
    lastSwitches.clear();
    nextTick = clock.nanos();
  }

  /**
   * A command was given, or a person was asked: that exchange, which is in the record with its
   * stamps, lies between the samples before and after it and is no gap. What the record and the
   * screen held in that time is none of its own.
   */
  void commanded() {
    duty.commanded();
    paused();
    stem = new StemWatch();
    round = new SamplingRound(bench, this::deadline);
  }

  /** Another instrument was asked between two samples: no gap, and the unit was told nothing. */
  void paused() {
    last.ifPresent(
        before ->
            excusedNanos = clock.nanos() - before.stampNanos() - (log.heldNanos() - heldBefore));
  }

  /**
   * Looks back to the last command, or to the beginning of the series.
   *
   * @throws TestVoid if the stem's angle stood still while the feedback travelled
   */
  void requireLiveStem() throws TestVoid {
    Optional<String> detail = stem.frozen();
    if (detail.isPresent()) {
      log.write(new Event.Faulted(RunFault.FROZEN_VALUE, "", detail.get()));
      throw new TestVoid(RunFault.FROZEN_VALUE + ": " + detail.get());
    }
  }

  /**
   * At the end of a test, after which nothing may bear the input's rate out any more.
   *
   * @throws RunEnded if a jump is still doubted
   */
  void requireBorneOut() throws RunEnded {
    if (doubted.isPresent()) {
      throw jumped(doubted.get());
    }
  }

  /** The last position read; empty after {@link #restart(boolean)}. */
  Optional<Reading<Position>> last() {
    return last;
  }

  /** The stem's angle of the last sample instant, where it is read. */
  Optional<Reading<Angle>> lastAngle() {
    return lastAngle;
  }

  /** The supply's voltage of the last sample instant, where it is read. */
  Optional<Reading<Voltage>> lastSupply() {
    return lastSupply;
  }

  /** Bench time now, ns. */
  long nowNanos() {
    return clock.nanos();
  }

  /**
   * Waits for the next sample instant and reads.
   *
   * @throws TestVoid if an instrument failed or the samples do not join those before
   * @throws RunEnded if the readings can't be believed at all, or a stop was asked for: a wait for
   *     rest may be long, so it is looked for with every sample
   */
  Reading<Position> next() throws TestVoid, RunEnded {
    try {
      feed.feed();
      await();
      feed.feed();
      stop.check();
      round = new SamplingRound(bench, this::deadline);
      Reading<Position> reading = round.position();
      long held = log.heldNanos();
      write("position", reading.value().percent(), "%", reading);
      Optional<Reading<Position>> before = last;
      last = Optional.of(reading);
      heldBefore = held;
      stem.position(reading.value());
      duty.add(reading);
      readOthers();
      if (before.isPresent()) {
        guard(before.get(), reading);
        beforeLast = before;
        same = before.get().value().equals(reading.value()) ? same + 1 : 1;
      }
      excusedNanos = 0;
      return reading;
    } catch (InstrumentException e) {
      throw failed(e);
    }
  }

  /**
   * Reads what else there is than the position, which a person reads.
   *
   * @param times at so many sample instants
   */
  void lookAround(int times) throws TestVoid, RunEnded {
    boolean nothing =
        bench.angle().isEmpty() && bench.switches().isEmpty() && bench.supplyMeter().isEmpty();
    try {
      feed.feed();
      round = new SamplingRound(bench, this::deadline);
      for (int i = 0; i < times && !nothing; i++) {
        feed.feed();
        await();
        stop.check();
        round = new SamplingRound(bench, this::deadline);
        readOthers();
      }
    } catch (InstrumentException e) {
      throw failed(e);
    }
  }

  /** The loop's current where there is a meter: of the last sample instant, or read now. */
  Optional<Reading<Current>> loop() throws TestVoid {
    try {
      Optional<Reading<Current>> reading = round.loop();
      reading.ifPresent(r -> write("loop", r.value().milliamps(), "mA", r));
      return reading;
    } catch (InstrumentException e) {
      throw failed(e);
    }
  }

  /** The loop's current, read anew. */
  Optional<Reading<Current>> loopAgain() throws TestVoid {
    round = new SamplingRound(bench, this::deadline);
    return loop();
  }

  private void await() throws RunEnded {
    nextTick = Math.max(nextTick + periodNanos, clock.nanos());
    try {
      clock.waitUntil(nextTick);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new RunEnded(RunEnded.How.STOPPED, "the program was asked to end");
    }
  }

  private void readOthers() throws InstrumentException {
    lastAngle = round.angle();
    lastAngle.ifPresent(a -> write("stem", a.value().degrees(), "deg", a));
    lastAngle.ifPresent(stem::angle);
    lastSupply = round.supply();
    lastSupply.ifPresent(s -> write("supply", s.value().volts(), "V", s));
    Optional<Reading<Map<LimitSwitch, Boolean>>> made = round.switches();
    if (made.isPresent()) {
      Reading<Map<LimitSwitch, Boolean>> reading = made.get();
      for (Map.Entry<LimitSwitch, Boolean> each : reading.value().entrySet()) {
        boolean changed = !each.getValue().equals(lastSwitches.put(each.getKey(), each.getValue()));
        if (changed || reading.is(Doubt.ASKED_AGAIN)) {
          write("switch " + each.getKey().key(), each.getValue() ? 1 : 0, "made", reading);
        }
      }
    }
  }

  private void guard(Reading<Position> before, Reading<Position> now) throws TestVoid, RunEnded {
    requireNoGap((now.stampNanos() - before.stampNanos() - excusedNanos) / 1e9);
    requirePossible(before, now);
  }

  private void requireNoGap(double seconds) throws TestVoid {
    if (seconds <= unit.practice().gapPeriods() * periodNanos / 1e9) {
      return;
    }
    String detail =
        "no sample for "
            + Numbers.fixed(seconds, 2)
            + " s, where one every "
            + Numbers.plain(periodNanos / 1e9)
            + " s is due; no figure is taken across the gap";
    log.write(new Event.Faulted(RunFault.GAP, "", detail));
    if (measuring) {
      throw new TestVoid(RunFault.GAP + ": " + detail + hurried(clock.pace()));
    }
  }

  /**
   * What to do about a gap where a simulated bench runs faster than the wall, and the links and the
   * computer do not.
   */
  static String hurried(double scale) {
    return scale > 1.0
        ? "; the bench is simulated at "
            + Numbers.plain(scale)
            + " × real time: serve it with a lower --time-scale"
        : "";
  }

  /**
   * Where values stand for several readings each, a change is that of all of them: an input that
   * converts more seldom than it is read. Until that is known to be its steady rate, the jump is
   * doubted, and it ends the run if what follows does not bear the rate out.
   */
  private void requirePossible(Reading<Position> before, Reading<Position> now) throws RunEnded {
    conversion.add(now.stampNanos() / 1e9, now.value().percent());
    boolean known = conversion.seconds().isPresent();
    doubted = known ? Optional.empty() : doubted;
    doubtful += doubted.isPresent() ? 1 : 0;
    if (doubtful > DOUBTFUL_READINGS) {
      throw jumped(doubted.orElseThrow());
    }
    if (possible(before, now, 0.0) || goesOn(before, now)) {
      return;
    }
    if (!possible(before, now, stoodSeconds(same))) {
      throw jumped(jump(before, now));
    }
    if (!known && doubted.isEmpty()) {
      doubted = Optional.of(jump(before, now));
      doubtful = 0;
    }
  }

  /** Whether a drive can go from one reading to the other, with some seconds more for it. */
  private boolean possible(Reading<Position> from, Reading<Position> to, double moreSeconds) {
    return change(from, to)
        <= mostPercent(from, to) + fastestPercentPerSecond() * moreSeconds + SLEW_MARGIN_PERCENT;
  }

  /**
   * Whether it goes on the way of the change before, as far as is possible from there: an input
   * that converts about as often as it is read shows two conversions' way at once, now and then.
   */
  private boolean goesOn(Reading<Position> before, Reading<Position> now) {
    return beforeLast
        .filter(b -> possible(b, now, 0.0))
        .filter(b -> change(b, now) > Math.max(change(b, before), change(before, now)))
        .isPresent();
  }

  private static double change(Reading<Position> from, Reading<Position> to) {
    return Math.abs(to.value().percent() - from.value().percent());
  }

  private double mostPercent(Reading<Position> from, Reading<Position> to) {
    return fastestPercentPerSecond() * (to.answeredNanos() - from.askedNanos()) / 1e9;
  }

  private double fastestPercentPerSecond() {
    return unit.practice().slewFactor() * unit.percentPerSecond();
  }

  private String jump(Reading<Position> before, Reading<Position> now) {
    return "the position jumped by "
        + Numbers.fixed(change(before, now), 2)
        + " % within "
        + Numbers.fixed((now.answeredNanos() - before.askedNanos()) / 1e9, 3)
        + " s; at most "
        + Numbers.fixed(mostPercent(before, now), 2)
        + " % is possible: suspect the position sensor or its wiring"
        + (same < STOOD ? "" : ", or the link: the " + same + " readings before it were the same");
  }

  /** How much longer than between two readings the unit may have moved unseen, s. */
  private double stoodSeconds(int stood) {
    double period = periodNanos / 1e9;
    if (conversion.seconds().isPresent()) {
      return Math.min(conversion.seconds().getAsDouble(), stood * period);
    }
    return stood > Conversion.MOST_READINGS ? 0.0 : (stood - 1) * period;
  }

  private RunEnded jumped(String detail) {
    log.write(new Event.Faulted(RunFault.IMPOSSIBLE_SLEW, "", detail));
    return new RunEnded(RunEnded.How.FAULT, RunFault.IMPOSSIBLE_SLEW + ": " + detail);
  }

  private TestVoid failed(InstrumentException e) {
    log.write(Failed.exchange(e));
    return new TestVoid(e.getMessage());
  }

  private void write(String channel, double value, String unitText, Reading<?> reading) {
    log.write(
        new Event.Sampled(
            channel,
            value,
            unitText,
            reading.is(Doubt.SATURATED) ? Event.Sampled.SATURATED : Event.Sampled.GOOD,
            reading.raw(),
            log.since(reading.askedNanos()),
            log.since(reading.answeredNanos())));
  }

  private Deadline deadline() {
    return Deadline.inWall(clock, bench.replyNanos());
  }
}
