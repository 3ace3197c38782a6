package org.benchstroke.run;

import java.util.Map;
import java.util.Optional;
import org.benchstroke.core.quantity.Current;
import org.benchstroke.procedure.Action;
import org.benchstroke.procedure.LossWay;
import org.benchstroke.record.Event;
import org.benchstroke.record.Leg;
import org.benchstroke.unit.UnitType;

/** Takes the signal away and watches what the unit does. The runner's thread only. */
final class SignalAway {
  private final UnitType unit;
  private final RunLog log;
  private final Signal signal;
  private final Rest rest;

  SignalAway(UnitType unit, RunLog log, Signal signal, Rest rest) {
    this.unit = unit;
    this.log = log;
    this.signal = signal;
    this.rest = rest;
  }

  private Optional<String> lacking(LossWay way) {
    if (way == LossWay.HIGH && unit.signalLoss().highMilliamps().isEmpty()) {
      return Optional.of("the unit type states no high_mA");
    }
    return way == LossWay.OPEN_LOOP && !signal.opensLoop()
        ? Optional.of("the source has no output switch, so it can't open the loop")
        : Optional.empty();
  }

  Arrival perform(Action.Lose lose) throws TestVoid, RunEnded {
    Optional<String> lacking = lacking(lose.aim());
    if (lacking.isPresent()) {
      String why = "not done: " + lacking.get();
      log.write(new Event.Checked(lose.aim().check(), "warning", why, Map.of()));
      return Arrival.none();
    }
    long lost =
        switch (lose.aim()) {
          case LOW -> signal.disturb(unit.signalLoss().holdsMilliamps());
          case LOST -> signal.disturb(unit.signalLoss().lostMilliamps());
          case ZERO -> signal.disturb(Current.ofMilliamps(0.0));
          case HIGH -> signal.disturb(unit.signalLoss().highMilliamps().orElseThrow());
          case OPEN_LOOP -> signal.open();
        };
    Wait wait =
        new Wait(
            lose.aim(),
            Leg.ARRIVAL,
            lose.aim().words(),
            signal.setpoint(),
            "none",
            0,
            lost,
            lose.earliestSeconds(),
            lose.timeoutSeconds(),
            false);
    return rest.await(wait, "signal away");
  }
}
