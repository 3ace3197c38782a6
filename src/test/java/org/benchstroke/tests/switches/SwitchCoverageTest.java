package org.benchstroke.tests.switches;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.List;
import java.util.OptionalDouble;
import java.util.SplittableRandom;
import java.util.function.DoubleUnaryOperator;
import org.benchstroke.Counted;
import org.benchstroke.core.quantity.Position;
import org.benchstroke.io.instrument.LimitSwitch;
import org.benchstroke.judge.Coverage;
import org.benchstroke.judge.JudgedBench;
import org.benchstroke.judge.MadeUpRun;
import org.benchstroke.judge.Measure;
import org.benchstroke.judge.RecordFixture;
import org.benchstroke.record.RunRecord;
import org.benchstroke.tests.duty.DutyMeasures;
import org.benchstroke.tests.duty.DutyRun;
import org.benchstroke.tests.switches.Switches.End;
import org.benchstroke.unit.MeasureKind;
import org.benchstroke.unit.UnitType;
import org.benchstroke.unit.UnitTypeReader;
import org.junit.jupiter.api.Test;

/**
 * Whether the stated 95 % intervals of switch angles and of duty hold the true value in 93 to 97 %
 * of 2,000 seeded units: motions known in closed form, as {@link MadeUpRun} reads them.
 */
class SwitchCoverageTest {
  private static final int UNITS = Counted.of(2_000);
  private static final int CYCLES = 3;
  private static final double DEGREES = 0.9;

  /** The speed of the unit and of the setpoint that it creeps after, %/s. */
  private static final double RUNS = 100.0 / 15.0;

  private static final double CREEPS = 0.5 / DEGREES;

  private final RecordFixture fixture = new RecordFixture();

  private JudgedBench judged() throws Exception {
    UnitType unit = UnitTypeReader.read(Path.of("demo-data/unit-types/quarter-turn-15s.toml"));
    return JudgedBench.of(fixture.bench(), unit, new RunRecord(fixture.entries, List.of()));
  }

  private static SplittableRandom random(int seed) {
    return new SplittableRandom(1_000_003L * seed + 11);
  }

  /** A unit with its two switches at the closed end; angles in % of travel. */
  private record Made(
      double outer, double auxiliary, double differential, double pulse, double lag) {}

  /** Goes in pulses towards an end or away from it, the first one at its own phase. */
  private static DoubleUnaryOperator creep(
      double from, double sign, Made made, double phase, double begin) {
    return t -> {
      double asked = Math.max(0.0, (t - begin) * CREEPS + phase);
      double whole = Math.floor(asked / made.pulse());
      double since = (asked - whole * made.pulse()) / CREEPS;
      double within = whole < 1.0 ? 0.0 : Math.min(0.0, since * RUNS - made.pulse());
      return from + sign * (whole * made.pulse() + within);
    };
  }

  /** Samples a way past the switches; each is read after the position. */
  private static double way(
      MadeUpRun run, boolean towards, Made made, DoubleUnaryOperator position, double begin) {
    boolean[] state = {!towards, !towards};
    double end = begin + 9.0 / CREEPS;
    double now = begin;
    run.made(LimitSwitch.CLOSED, state[0], begin - 0.01);
    run.made(LimitSwitch.CLOSED_AUXILIARY, state[1], begin - 0.01);
    while (now < end) {
      // The feedback lags; the switch is where it is.
      double read = run.one(now, t -> position.applyAsDouble(t - made.lag()));
      double there = position.applyAsDouble(read);
      state[0] = read(run, LimitSwitch.CLOSED, state[0], there, made.outer(), made, read);
      state[1] =
          read(run, LimitSwitch.CLOSED_AUXILIARY, state[1], there, made.auxiliary(), made, read);
      now += run.period();
    }
    run.watched(new Switches.Creep(End.CLOSED, towards, 0), 0.0, begin, end);
    return now;
  }

  private static boolean read(
      MadeUpRun run,
      LimitSwitch which,
      boolean was,
      double there,
      double trips,
      Made made,
      double at) {
    boolean now = was ? there < trips + made.differential() : there <= trips;
    if (now != was) {
      run.made(which, now, at);
    }
    return now;
  }

  @Test
  void switches() throws Exception {
    JudgedBench judged = judged();
    Switches spec = new Switches(0.5, 3.0, OptionalDouble.of(1.0), CYCLES);
    Coverage coverage = new Coverage();
    for (int seed = 0; seed < UNITS; seed++) {
      SplittableRandom r = random(seed);
      double outer = r.nextDouble(-0.5, 0.3);
      Made made =
          new Made(
              outer,
              outer + r.nextDouble(1.0, 3.0),
              r.nextDouble(0.6, 1.6),
              r.nextDouble(0.3, 0.9),
              r.nextDouble(0.05, 0.3));
      double noise = r.nextDouble(0.002, 0.02);
      double period = r.nextDouble(0.04, 0.12);
      MadeUpRun run = new MadeUpRun(r, period, 0.1 * period, noise, 0.00625, p -> p);
      double now = 1.0;
      for (int cycle = 0; cycle < CYCLES; cycle++) {
        double phase = made.pulse() * (cycle + r.nextDouble()) / CYCLES;
        double inside = 6.5 + phase;
        now = run.sample(now, now + 2.5, t -> inside);
        DoubleUnaryOperator there = creep(inside, -1.0, made, 0.0, now);
        double turned = way(run, true, made, there, now);
        double outside = there.applyAsDouble(turned);
        now = run.sample(turned, turned + 2.5, t -> outside);
        now = way(run, false, made, creep(outside, 1.0, made, 0.0, now), now);
      }
      for (Measure m :
          new SwitchMeasures(judged, spec, run.attempt("switches")).result().measures()) {
        boolean closed = m.place().words().startsWith("closed");
        assertThat(m.value().isPresent())
            .as("%s %s: %s", m.kind(), m.place(), m.note())
            .isEqualTo(closed);
        if (closed) {
          coverage.add(m.kind().title(), m, truth(m, made));
        }
      }
    }
    coverage.check("coverage-switches.md", 3);
  }

  private static double truth(Measure m, Made made) {
    boolean outer = m.place().words().equals("closed");
    return switch (m.kind()) {
      case SWITCH_ERROR ->
          DEGREES * (outer ? made.outer() : made.auxiliary()) - (outer ? -0.4 : 2.0);
      case AUXILIARY_LEAD -> DEGREES * (made.auxiliary() - made.outer());
      default -> DEGREES * made.differential();
    };
  }

  @Test
  void duty() throws Exception {
    JudgedBench judged = judged();
    Coverage coverage = new Coverage();
    for (int seed = 0; seed < UNITS; seed++) {
      SplittableRandom r = random(seed);
      double noise = r.nextDouble(0.002, 0.02);
      double period = r.nextDouble(0.04, 0.15);
      double size = r.nextDouble(2.0, 20.0);
      double moves = size / RUNS;
      double every = moves + r.nextDouble(1.5, 10.0);
      int count = 6 + r.nextInt(20);
      double dead = r.nextDouble(0.1, 0.4);
      MadeUpRun run = new MadeUpRun(r, period, 0.1 * period, noise, 0.00625, p -> p);
      // Commands come between two samples; the motor starts a fixed time after each.
      double begin = 1.0;
      double now = begin;
      double second = 0.0;
      double last = 0.0;
      for (int move = 1; move <= count; move++) {
        double from = now;
        boolean there = move % 2 == 1;
        run.command(there ? 40.0 + size : 40.0, from, from + 0.005);
        now =
            run.sample(
                from + 0.01,
                from + every,
                t -> {
                  double share = Math.max(0.0, Math.min(1.0, (t - from - dead) / moves));
                  return 40.0 + size * (there ? share : 1.0 - share);
                });
        run.rested(
            new DutyRun.Move(move), there ? 40.0 + size : 40.0, move, now - 1.0, now - 0.001);
        second = move == 2 ? from : second;
        last = from;
      }
      double seconds = now - begin;
      double starts = (count - 2) / (last - second) * 3600.0;
      DutyRun spec =
          new DutyRun(
              Position.ofPercent(40),
              Position.ofPercent(40 + size),
              3600 / every,
              count * every / 60);
      for (Measure m : new DutyMeasures(judged, spec, run.attempt("duty")).result().measures()) {
        boolean rate = m.kind() == MeasureKind.DUTY_STARTS;
        coverage.add(m.kind().title(), m, rate ? starts : 100.0 * count * moves / seconds);
      }
    }
    coverage.check("coverage-duty.md", 2);
  }
}
