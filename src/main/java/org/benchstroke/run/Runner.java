package org.benchstroke.run;

import java.io.UncheckedIOException;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.benchstroke.bench.BenchFile;
import org.benchstroke.bench.InstrumentSpec;
import org.benchstroke.core.clock.BenchClock;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.io.instrument.InstrumentException;
import org.benchstroke.procedure.Action;
import org.benchstroke.procedure.Caution;
import org.benchstroke.procedure.Expansion;
import org.benchstroke.procedure.PlannedTest;
import org.benchstroke.record.Event;
import org.benchstroke.record.Journal;
import org.benchstroke.record.StepId;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * Runs a procedure on a bench and writes its record. Whatever happens, it ends with the unit's safe
 * signal commanded and says whether that was confirmed. It owns the bench's ports; one thread.
 */
public final class Runner {
  private static final Logger LOG = LoggerFactory.getLogger(Runner.class);
  private static final double STANDS_STILL_PERCENT = 5.0;

  /** A unit that moved by more than this did not stand still, %. Own choice. */
  private static final double BARELY_PERCENT = 1.0;

  private final RunPlan plan;
  private final Bench bench;
  private final BenchClock clock;
  private final RunLog log;
  private final Operator operator;
  private final StopSwitch stop;
  private final Expansion expansion;
  private final List<PlannedTest> tests;
  private final ProgressLine progress;
  private final DutyWatch duty;
  private final WatchdogFeed feed;
  private final Sampler sampler;
  private final Recovery recovery;
  private final MotorSupply supply;
  private double nominalSeconds;
  private double testSeconds;
  private boolean sourceProven;
  private Optional<String> lostRecord = Optional.empty();

  public Runner(
      RunPlan plan,
      Bench bench,
      BenchClock clock,
      Journal journal,
      List<Spectator> spectators,
      Operator operator,
      StopSwitch stop) {
    this.plan = plan;
    this.bench = bench;
    this.clock = clock;
    this.log = new RunLog(journal, clock, spectators);
    this.operator = operator;
    this.stop = stop;
    this.expansion =
        Expansion.of(plan.procedure(), plan.unit(), plan.bench().samplePeriodSeconds());
    this.tests = expansion.tests();
    this.progress = new ProgressLine(log, expansion.seconds());
    this.feed = new WatchdogFeed(bench, clock, log);
    this.duty = new DutyWatch(plan.unit(), plan.bench().samplePeriodSeconds());
    this.sampler =
        new Sampler(
            bench, log, clock, plan.unit(), plan.bench().samplePeriodSeconds(), stop, duty, feed);
    this.supply = new MotorSupply(bench, clock, log);
    this.recovery = new Recovery(plan, bench, clock, log, progress, stop);
  }

  /** Runs. Never throws: how it ended is in the result and in the record. */
  public RunResult run() {
    long opened = clock.wallNanos();
    RunEnded end = ended();
    // Whoever interrupts this thread wants the run to end, and its end is the safe signal.
    boolean interrupted = Thread.interrupted();
    log.endStep();
    Event.MadeSafe safe = makeSafe();
    String reason = end.getMessage() + (supply.leftOff() ? "; the motor power is left off" : "");
    double seconds = (clock.wallNanos() - opened) / 1e9;
    writeLast(safe);
    writeLast(new Event.Closed(end.how().text(), reason, seconds));
    bench.close();
    if (interrupted) {
      Thread.currentThread().interrupt();
    }
    boolean recorded = lostRecord.isEmpty();
    return new RunResult(
        recorded ? end.how() : RunEnded.How.FAULT,
        lostRecord.orElse(reason),
        recorded,
        safe,
        sourceProven,
        testSeconds,
        nominalSeconds);
  }

  private RunEnded ended() {
    try {
      open();
      perform();
      return new RunEnded(RunEnded.How.COMPLETE, "all tests of the procedure are done");
    } catch (RunEnded e) {
      return e;
    } catch (UncheckedIOException e) {
      lostRecord = Optional.of(e.getMessage());
      return new RunEnded(RunEnded.How.FAULT, e.getMessage());
    } catch (RuntimeException | Error e) {
      // Whatever it is, the unit comes first.
      LOG.error("the program failed during a run", e);
      return new RunEnded(RunEnded.How.FAULT, "the program failed: " + e);
    }
  }

  private void open() throws RunEnded {
    BenchFile file = plan.bench();
    operator.whileWaiting(feed::feedMeanwhile);
    log.plan(expansion);
    log.write(
        new Event.Opened(
            Event.FORMAT,
            plan.tool(),
            file.simulation().map(BenchFile.Simulation::shows).orElse(""),
            clock.pace(),
            plan.serial(),
            plan.operator(),
            plan.order(),
            clock.offset().getId(),
            plan.files()));
    plan.job().ifPresent(log::write);
    plan.before().setUp().ifPresent(log::write);
    plan.before().resumed().ifPresent(log::takeOver);
    for (Caution caution : Caution.beforeWork(plan.unit())) {
      ask(caution);
    }
    if (!plan.before().notAsOrdered().isEmpty()) {
      ask(new Question.Acknowledgement(Caution.AS_NOTED, Optional.of(Echo.differences(plan))));
    }
  }

  private void perform() throws RunEnded {
    Preflight preflight = new Preflight(plan, bench, clock, log, sampler, operator, stop);
    sourceProven = preflight.proveSource();
    if (sourceProven) {
      plan.before().left().ifPresent(preflight::makeSafe);
      preflight.makeSafe(new SafeSignal(bench, clock, plan.unit()).commandFirst());
    }
    preflight.identifyOthers();
    feed.begin();
    power(false);
    Preflight.Noise noise = preflight.check();
    ask(new Question.MotionConsent(firstMotion(), Optional.of(Echo.of(plan, expansion))));
    operator.countDown();
    power(true);
    Signal signal = new Signal(plan, bench, clock, log, sampler, progress);
    Conductor conductor =
        new Conductor(
            plan,
            bench,
            clock,
            log,
            sampler,
            signal,
            rest(signal, noise),
            supply,
            duty,
            progress,
            new NoteTaker(plan, clock, log, sampler, operator));
    for (PlannedTest test : tests) {
      perform(test, conductor);
    }
  }

  private Caution firstMotion() {
    return Caution.firstMotion(bench.motorPower().isPresent());
  }

  private Rest rest(Signal signal, Preflight.Noise noise) {
    Optional<StemByEye> stem =
        bench.stemByEye().map(spec -> new StemByEye(eye(spec), plan, log, sampler));
    Optional<Eye> switches = bench.switchesByEye().map(this::eye);
    if (bench.positionByEye().isEmpty()) {
      return new Settling(plan, log, sampler, signal, noise, progress, stem, switches);
    }
    Eye position = eye(bench.positionByEye().get());
    return new RestByEye(
        plan, clock, log, sampler, signal, progress, stop, feed, position, stem, switches);
  }

  private Eye eye(InstrumentSpec spec) {
    return new Eye(spec, plan, clock, log, operator);
  }

  private void perform(PlannedTest test, Conductor conductor) throws RunEnded {
    if (plan.before().resumed().filter(r -> r.counts(test)).isPresent()) {
      return;
    }
    progress.test(test.name());
    Optional<String> lacking = lacking(test);
    if (lacking.isPresent()) {
      log.write(new Event.TestEnded(test.index(), test.name(), 1, "not done", lacking.get()));
      return;
    }
    Optional<Caution> caution = test.test().caution();
    if (caution.isPresent()) {
      ask(caution.get());
    }
    attempts(test, conductor);
  }

  private Optional<String> lacking(PlannedTest test) {
    return bench.positionByEye().isPresent() && !test.test().byEye()
        ? Optional.of("it needs a position that the program reads; here a person reads it at rest")
        : plan.bench().lacking(test.test().needs());
  }

  /** Begins a test again, as often as practice allows, where its figures became void. */
  private void attempts(PlannedTest test, Conductor conductor) throws RunEnded {
    int before = plan.before().resumed().map(r -> r.attempts(test)).orElse(0);
    int attempts = before + plan.unit().practice().attempts();
    for (int attempt = before + 1; attempt <= attempts; attempt++) {
      log.write(new Event.TestBegan(test.index(), test.name(), attempt));
      try {
        attempt(test, attempt, conductor);
        log.write(new Event.TestEnded(test.index(), test.name(), attempt, "complete", ""));
        return;
      } catch (TestVoid e) {
        log.endStep();
        log.write(new Event.TestEnded(test.index(), test.name(), attempt, "void", e.getMessage()));
        recover(e, attempt == attempts);
      } catch (RunEnded e) {
        log.endStep();
        log.write(new Event.TestEnded(test.index(), test.name(), attempt, "void", e.getMessage()));
        throw e;
      }
    }
  }

  private void attempt(PlannedTest test, int number, Conductor conductor)
      throws TestVoid, RunEnded {
    long began = clock.nanos();
    double nominalBefore = conductor.nominalSeconds();
    conductor.begin();
    if (supply.cut()) {
      power(true);
    }
    if (test.test().cutsSupply()) {
      conductor.proveSupplyOff();
    }
    sampler.restart(test.test().gapVoids());
    actions(test, number, conductor);
    sampler.requireBorneOut();
    testSeconds += (clock.nanos() - began) / 1e9;
    nominalSeconds += conductor.nominalSeconds() - nominalBefore;
  }

  private void actions(PlannedTest test, int attempt, Conductor conductor)
      throws TestVoid, RunEnded {
    double before = behind(test);
    OptionalDouble closed = OptionalDouble.empty();
    for (int step = 0; step < test.actions().size(); step++) {
      Action action = test.actions().get(step);
      stop.check();
      log.begin(new StepId(test.index(), attempt, step, 1));
      OptionalDouble rest = conductor.perform(action);
      conductor.requireSource();
      before += action.seconds();
      progress.done(before);
      if (action instanceof Action.Approach approach && !test.measures()) {
        if (approach.to().percent() == 0.0) {
          closed = rest;
        } else {
          checkAction(closed, rest);
        }
      }
    }
    log.endStep();
  }

  /** The first full stroke tells whether the unit moves, and the right way. */
  private void checkAction(OptionalDouble closed, OptionalDouble open) throws RunEnded {
    if (closed.isEmpty() || open.isEmpty()) {
      return;
    }
    double moved = open.getAsDouble() - closed.getAsDouble();
    String seen =
        "commanded from 0 to 100 %, the position went from "
            + Numbers.fixed(closed.getAsDouble(), 1)
            + " to "
            + Numbers.fixed(open.getAsDouble(), 1)
            + " %";
    if (moved < -STANDS_STILL_PERCENT) {
      throw new RunEnded(RunEnded.How.ACTION_REVERSED, seen + ": its action is reversed");
    }
    if (moved < STANDS_STILL_PERCENT) {
      throw new RunEnded(
          RunEnded.How.FAULT,
          seen
              + (moved < BARELY_PERCENT ? ": it stands still" : ": it stops on its way")
              + (supply.hasRelay() ? ", though the relay says that its motor supply is on" : "")
              + "; look at motor, supply and thermal switch, then at wiring and the unit's"
              + " settings");
    }
  }

  /** Makes the unit safe after a void test, and waits for instruments that went away. */
  private void recover(TestVoid cause, boolean last) throws RunEnded {
    Event.MadeSafe safe = recovery.begin();
    stop.check();
    if (last) {
      throw new RunEnded(
          RunEnded.How.FAULT,
          "the test was begun as often as allowed and was void each time: "
              + cause.getMessage()
              + (safe.confirmed() ? "" : "; " + safe.detail()));
    }
    recovery.await(cause, safe);
  }

  private Event.MadeSafe makeSafe() {
    SafeSignal safe = new SafeSignal(bench, clock, plan.unit());
    return sourceProven ? safe.command() : safe.leftAlone();
  }

  private void power(boolean on) throws RunEnded {
    if (supply.hasRelay()) {
      try {
        supply.set(on);
      } catch (InstrumentException e) {
        throw new RunEnded(RunEnded.How.FAULT, e.getMessage());
      }
    } else {
      if (!on) {
        ask(Caution.POWER_OFF);
      }
      log.write(new Event.Powered(on, "by hand"));
    }
  }

  private void ask(Caution caution) throws RunEnded {
    ask(Question.of(caution));
  }

  private void ask(Question question) throws RunEnded {
    stop.check();
    Caution caution = question.warning().orElseThrow();
    Answer answer = operator.answer(question);
    String said = answer instanceof Answer.Yes yes ? yes.how() : "";
    log.write(new Event.Cautioned(caution.id(), caution.text(), said.isEmpty() ? "refused" : said));
    if (said.isEmpty()) {
      stop.check(); // then that is why
      throw new RunEnded(
          RunEnded.How.STOPPED, "the caution \"" + caution.id() + "\" was not acknowledged");
    }
  }

  /** The record may be what failed: then the bench is safe all the same, and the result says so. */
  private void writeLast(Event event) {
    if (lostRecord.isPresent()) {
      return;
    }
    try {
      log.write(event);
    } catch (UncheckedIOException e) {
      lostRecord = Optional.of(e.getMessage());
    }
  }

  private double behind(PlannedTest test) {
    return tests.stream()
        .filter(other -> other.index() < test.index())
        .mapToDouble(PlannedTest::seconds)
        .sum();
  }
}
