package org.benchstroke.commission;

import java.util.Optional;
import java.util.Set;
import java.util.function.Consumer;
import org.benchstroke.bench.BenchFile;
import org.benchstroke.core.clock.BenchClock;
import org.benchstroke.core.clock.Deadline;
import org.benchstroke.core.quantity.Current;
import org.benchstroke.io.instrument.Identity;
import org.benchstroke.io.instrument.Instrument;
import org.benchstroke.io.instrument.InstrumentException;
import org.benchstroke.io.instrument.Reading;
import org.benchstroke.procedure.Caution;
import org.benchstroke.record.Event;
import org.benchstroke.run.Answer;
import org.benchstroke.run.Bench;
import org.benchstroke.run.Identification;
import org.benchstroke.run.Operator;
import org.benchstroke.run.Question;
import org.benchstroke.run.SafeSignal;
import org.benchstroke.run.StopSwitch;
import org.benchstroke.unit.UnitType;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * A bench that is moved by hand: cautions first, no current from an instrument that is not proven,
 * motor power only after the caution of motion, and whatever happens, the safe signal and the motor
 * power off at the end. It owns the bench's ports; one thread.
 */
public final class HandBench {
  private static final Logger LOG = LoggerFactory.getLogger(HandBench.class);

  private final BenchFile file;
  private final UnitType unit;
  private final Bench bench;
  private final BenchClock clock;
  private final Operator operator;
  private final StopSwitch stop;
  private final Consumer<String> told;
  private boolean proven;
  private boolean powerTouched;

  /**
   * Opens nothing yet.
   *
   * @param bench closed; it is closed again at the end
   * @param told gets what happens, line by line
   */
  public HandBench(
      BenchFile file,
      UnitType unit,
      Bench bench,
      BenchClock clock,
      Operator operator,
      StopSwitch stop,
      Consumer<String> told) {
    this.file = file;
    this.unit = unit;
    this.bench = bench;
    this.clock = clock;
    this.operator = operator;
    this.stop = stop;
    this.told = told;
  }

  /** What is done while the bench is alive. */
  interface Work {
    void perform() throws HandEnded;
  }

  /**
   * Prepares the bench, does the work, and leaves the bench safe. Never throws.
   *
   * @param unproven names of instruments whose identity may stay open: the one whose register map
   *     is in question
   */
  HandResult carryOut(Set<String> unproven, Work work) {
    HandEnded end =
        ended(
            () -> {
              prepare(unproven);
              work.perform();
            });
    SafeSignal signal = new SafeSignal(bench, clock, unit);
    Event.MadeSafe safe = proven ? signal.command() : signal.leftAlone();
    String power = powerOff();
    bench.close();
    return new HandResult(end.how(), end.getMessage(), safe, power);
  }

  /**
   * Prepares the loop alone, with the motor supply off, does the work, and leaves the bench safe.
   * Nothing shall move. Never throws.
   */
  HandResult withPowerOff(Work work) {
    HandEnded end =
        ended(
            () -> {
              ask(Caution.SESSION);
              ask(Caution.POWER_OFF);
              makeSafeFirst();
              identifyOthers(Set.of());
              if (bench.motorPower().isPresent()) {
                powerOffFirst();
              }
              work.perform();
            });
    SafeSignal signal = new SafeSignal(bench, clock, unit);
    Event.MadeSafe safe = proven ? signal.command() : signal.leftAlone();
    bench.close();
    return new HandResult(end.how(), end.getMessage(), safe, "off, as it was asked for");
  }

  /**
   * Does work that only reads: no caution, no current, no motor power. Never throws; the safe
   * signal of the result is the one that was left alone.
   */
  HandResult readOnly(Work work) {
    HandEnded end = ended(work);
    Event.MadeSafe left =
        new Event.MadeSafe(
            unit.safeSignal().milliamps(), false, "not commanded: nothing was sourced");
    bench.close();
    return new HandResult(end.how(), end.getMessage(), left, "not touched");
  }

  private HandEnded ended(Work work) {
    try {
      work.perform();
      return new HandEnded(HandResult.How.DONE, "done");
    } catch (HandEnded e) {
      return e;
    } catch (RuntimeException | Error e) {
      // Whatever it is, the unit comes first.
      LOG.error("the program failed while it moved a unit by hand", e);
      return new HandEnded(HandResult.How.FAULT, "the program failed: " + e);
    }
  }

  private void prepare(Set<String> unproven) throws HandEnded {
    for (Caution caution : Caution.beforeWork(unit)) {
      ask(caution);
    }
    makeSafeFirst();
    identifyOthers(unproven);
    powerOffFirst();
    ask(Caution.firstMotion(bench.motorPower().isPresent()));
    operator.countDown();
    checkStop();
    powerOn();
  }

  private void identifyOthers(Set<String> unproven) throws HandEnded {
    for (Instrument instrument : bench.instruments()) {
      if (bench.sourceInstrument().filter(source -> source == instrument).isEmpty()) {
        identify(instrument, unproven.contains(instrument.name()));
      }
    }
  }

  /**
   * The source is proven by itself, whatever becomes of the others: who left it before may have
   * left any current. Its identity never stays open.
   */
  private void makeSafeFirst() throws HandEnded {
    if (bench.sourceInstrument().isPresent()) {
      identify(bench.sourceInstrument().get(), false);
    }
    proven = true;
    Event.MadeSafe safe = new SafeSignal(bench, clock, unit).commandFirst();
    if (!safe.confirmed()) {
      throw new HandEnded(HandResult.How.LINK_LOST, safe.detail());
    }
    told.accept("safe signal " + unit.safeSignal() + ": " + safe.detail());
  }

  private void identify(Instrument instrument, boolean mayStayOpen) throws HandEnded {
    try {
      instrument.connect(deadline());
      Optional<Identity> identity = instrument.identify(deadline());
      Identification found = Identification.of(file, instrument, identity);
      boolean another = found.outcome() == Identification.Outcome.ANOTHER;
      if (another && !mayStayOpen) {
        throw new HandEnded(
            HandResult.How.NOT_PROVEN, "identity of " + instrument.name() + ": " + found.words());
      }
      told.accept(
          "identity of "
              + instrument.name()
              + ": "
              + found.words()
              + (another ? " (warning)" : ""));
    } catch (InstrumentException e) {
      if (!mayStayOpen || e.kind() == InstrumentException.Kind.PORT_GONE) {
        throw new HandEnded(HandResult.How.NOT_PROVEN, e.getMessage());
      }
      told.accept("identity of " + instrument.name() + ": " + e.getMessage() + " (warning)");
    }
  }

  private void powerOffFirst() throws HandEnded {
    if (bench.motorPower().isEmpty()) {
      ask(Caution.POWER_OFF);
      return;
    }
    try {
      powerTouched = true;
      bench.motorPower().get().set(false, deadline());
      told.accept("motor power: off by the relay");
    } catch (InstrumentException e) {
      throw lost(e);
    }
  }

  private void powerOn() throws HandEnded {
    if (bench.motorPower().isPresent()) {
      try {
        bench.motorPower().get().set(true, deadline());
        told.accept("motor power: on by the relay");
      } catch (InstrumentException e) {
        throw lost(e);
      }
    }
  }

  /** Where the relay was never touched, it is left as it was found. */
  private String powerOff() {
    if (bench.motorPower().isEmpty()) {
      return "by hand: switch it off now";
    }
    if (!powerTouched) {
      return "left as it was found";
    }
    try {
      bench.motorPower().get().set(false, deadline());
      return "off by the relay; the unit stays where it is, and follows the safe signal when power"
          + " comes back";
    } catch (InstrumentException e) {
      return "NOT confirmed off: " + e.getMessage();
    }
  }

  /** Shows a caution; work ends here if it is not acknowledged. */
  void ask(Caution caution) throws HandEnded {
    checkStop();
    if (!(operator.answer(Question.of(caution)) instanceof Answer.Yes)) {
      checkStop();
      throw new HandEnded(
          HandResult.How.STOPPED, "the caution \"" + caution.id() + "\" was not acknowledged");
    }
  }

  /** Tells a person what happens. */
  void tell(String line) {
    told.accept(line);
  }

  /** Sets a current and gives what the source reads back. */
  Reading<Current> apply(Current current) throws HandEnded {
    checkStop();
    try {
      return bench.source().apply(current, deadline());
    } catch (InstrumentException e) {
      throw lost(e);
    }
  }

  /** Waits until an instant of the bench's time; instruments with a watchdog are told first. */
  void waitUntil(long nanos) throws HandEnded {
    try {
      for (Instrument instrument : bench.instruments()) {
        instrument.keepAlive(deadline());
      }
      clock.waitUntil(nanos);
    } catch (InstrumentException e) {
      throw lost(e);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new HandEnded(HandResult.How.STOPPED, "the program was asked to end");
    }
    checkStop();
  }

  void checkStop() throws HandEnded {
    if (stop.isStopping()) {
      throw new HandEnded(HandResult.How.STOPPED, "stopped");
    }
  }

  HandEnded lost(InstrumentException e) {
    boolean link =
        e.kind() == InstrumentException.Kind.NO_REPLY
            || e.kind() == InstrumentException.Kind.PORT_GONE;
    return new HandEnded(link ? HandResult.How.LINK_LOST : HandResult.How.FAULT, e.getMessage());
  }

  Bench bench() {
    return bench;
  }

  BenchFile file() {
    return file;
  }

  UnitType unit() {
    return unit;
  }

  BenchClock clock() {
    return clock;
  }

  Deadline deadline() {
    return Deadline.inWall(clock, bench.replyNanos());
  }
}
