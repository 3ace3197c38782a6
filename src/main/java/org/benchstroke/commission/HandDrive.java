package org.benchstroke.commission;

import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.benchstroke.core.clock.Deadline;
import org.benchstroke.core.quantity.Angle;
import org.benchstroke.core.quantity.Current;
import org.benchstroke.core.quantity.Position;
import org.benchstroke.io.instrument.InstrumentException;
import org.benchstroke.io.instrument.LimitSwitch;
import org.benchstroke.io.instrument.Reading;
import org.benchstroke.procedure.Caution;
import org.benchstroke.run.Bench;

/**
 * Sets a current by hand, with everything else read back once a sample period. Takes no figures.
 * One thread.
 */
public final class HandDrive {
  /** Gives what was typed. */
  public interface Typed {
    /** A line, if there is one within a moment; the end of the input reads as "q". */
    Optional<String> poll();
  }

  /** Shows what happens. */
  public interface Screen {
    /** A line that stays. */
    void told(String line);

    /** The state of the bench, after each sample. */
    void shown(HandState state);
  }

  private final HandBench hands;
  private final Typed typed;
  private final Screen screen;
  private double stepMilliamps;
  private boolean quit;
  private boolean lossAcknowledged;

  /**
   * Does nothing yet.
   *
   * @param stepMilliamps the size of a step, mA, at first
   */
  public HandDrive(HandBench hands, Typed typed, Screen screen, double stepMilliamps) {
    this.hands = hands;
    this.typed = typed;
    this.screen = screen;
    this.stepMilliamps = stepMilliamps;
  }

  /** Carries out what is typed until it is told to quit. Never throws. */
  public HandResult drive() {
    return hands.carryOut(Set.of(), this::obey);
  }

  private void obey() throws HandEnded {
    HandLimits limits = HandLimits.of(hands.unit(), hands.bench().source());
    screen.told("allowed: " + limits.low() + " to " + limits.high() + "; " + HandOrder.ALLOWED);
    screen.told("a step is " + HandOrder.stepText(stepMilliamps, hands.unit().signal()));
    Current set = hands.apply(hands.unit().safeSignal()).value();
    long period = (long) (hands.file().samplePeriodSeconds() * 1e9);
    long next = hands.clock().nanos();
    while (!quit) {
      hands.checkStop();
      Optional<String> line = typed.poll();
      if (line.isPresent()) {
        set = carryOut(HandOrder.of(line.get(), hands.unit().signal()), limits, set);
      }
      if (!quit) {
        screen.shown(state(set));
        next = Math.max(next + period, hands.clock().nanos());
        hands.waitUntil(next);
      }
    }
  }

  /** Carries out one order and gives the current that is set now. */
  private Current carryOut(HandOrder order, HandLimits limits, Current set) throws HandEnded {
    if (order instanceof HandOrder.Set wanted) {
      return applied(wanted.current(), limits, set);
    }
    if (order instanceof HandOrder.Step step) {
      double milliamps = set.milliamps() + step.sign() * stepMilliamps;
      return applied(Current.ofMilliamps(milliamps), limits, set);
    }
    if (order instanceof HandOrder.Safe) {
      return hands.apply(hands.unit().safeSignal()).value();
    }
    if (order instanceof HandOrder.StepSize size) {
      stepMilliamps = size.milliamps();
      screen.told("a step is " + HandOrder.stepText(stepMilliamps, hands.unit().signal()));
    } else if (order instanceof HandOrder.Unclear unclear) {
      screen.told(unclear.why());
    } else if (order instanceof HandOrder.Quit) {
      quit = true;
    }
    return set;
  }

  private Current applied(Current wanted, HandLimits limits, Current set) throws HandEnded {
    if (!limits.allows(wanted)) {
      screen.told(
          "refused: "
              + wanted
              + " is outside "
              + limits.low()
              + " to "
              + limits.high()
              + "; it stays at "
              + set);
      return set;
    }
    if (limits.isSignal(wanted)) {
      lossAcknowledged = false;
    } else if (!lossAcknowledged) {
      hands.ask(Caution.SIGNAL_LOSS);
      lossAcknowledged = true;
    }
    return hands.apply(wanted).value();
  }

  private HandState state(Current set) throws HandEnded {
    Bench bench = hands.bench();
    try {
      Reading<Position> position = bench.position().read(deadline());
      Optional<Reading<Current>> loop = Optional.empty();
      if (bench.loopMeter().isPresent()) {
        loop = Optional.of(bench.loopMeter().get().read(deadline()));
      }
      Optional<Reading<Angle>> stem = Optional.empty();
      if (bench.angle().isPresent()) {
        stem = Optional.of(bench.angle().get().read(deadline()));
      }
      Map<LimitSwitch, Boolean> switches = Map.of();
      if (bench.switches().isPresent()) {
        switches = bench.switches().get().read(deadline()).value();
      }
      Position setting = hands.unit().signal().positionAt(set);
      return new HandState(set, setting, loop, position, stem, switches);
    } catch (InstrumentException e) {
      throw hands.lost(e);
    }
  }

  private Deadline deadline() {
    return hands.deadline();
  }
}
