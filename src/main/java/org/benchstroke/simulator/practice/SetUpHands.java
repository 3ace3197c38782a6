package org.benchstroke.simulator.practice;

import java.util.EnumMap;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import org.benchstroke.io.instrument.LimitSwitch;
import org.benchstroke.setup.Field;
import org.benchstroke.setup.FieldKey;
import org.benchstroke.setup.Hint;
import org.benchstroke.setup.Live;
import org.benchstroke.setup.SetUpAnswer;
import org.benchstroke.setup.SetUpState;
import org.benchstroke.setup.Step;
import org.benchstroke.setup.StepKey;
import org.benchstroke.simulator.SimulatedBench;
import org.benchstroke.simulator.SimulatedHand;
import org.benchstroke.unit.UnitType;

/**
 * A person's hands at a simulated unit that is set up in this process: they do what the state says,
 * no faster than hands are, and answer once it is done. The unit comes with its cams anywhere. The
 * bench's thread.
 */
public final class SetUpHands {
  private static final double QUICK_DEGREES_PER_SECOND = 15.0;
  private static final double SLOW_DEGREES_PER_SECOND = 1.5;
  private static final double CAM_DEGREES_PER_SECOND = 0.5;
  private static final double THERE_DEGREES = 0.05;
  private static final double AWAY_DEGREES = 3.0;
  private static final double CLEAR_DEGREES = 10.0;
  private static final double CAM_REACH_DEGREES = 20.0;

  private final SimulatedBench bench;
  private final SimulatedHand hand;
  private final Map<FieldKey, String> said = new EnumMap<>(FieldKey.class);
  private final Map<FieldKey, String> heard = new EnumMap<>(FieldKey.class);
  private long number = -1;
  private boolean back;

  /** Of a unit on a bench in this process, as it comes from its box: no cam where it belongs. */
  public SetUpHands(SimulatedBench bench) {
    this.bench = bench;
    this.hand = bench.hand();
    for (LimitSwitch which : LimitSwitch.values()) {
      hand.turnCam(which, hand.camDegrees(which) + outwards(which) * AWAY_DEGREES, 1000.0);
    }
  }

  /** What the display says of something, whatever was ordered. */
  public void says(FieldKey fact, String words) {
    said.put(fact, words);
  }

  /**
   * Switches the motor supply, where the bench has no relay: to be called with every state, whoever
   * answers.
   */
  public void supply(SetUpState state) {
    if (bench.switchedByHand() && bench.motorSupply() != state.powerOn()) {
      bench.motorSupply(state.powerOn());
    }
  }

  /**
   * Does what is to be done now.
   *
   * @return the answer, once it is done
   */
  public Optional<SetUpAnswer> work(SetUpState state) {
    if (state.number() != number) {
      number = state.number();
      heard.clear();
      back = false;
      hand.letGo();
    }
    Step step = state.step();
    if (state.ended().isPresent()) {
      return Optional.empty();
    }
    if (step.form() instanceof Step.Energise) {
      return Optional.of(new SetUpAnswer.Move(typed(step)));
    }
    if (state.caution().isPresent()) {
      return Optional.of(
          state.caution().get().startsMotion() ? new SetUpAnswer.Move() : new SetUpAnswer.Read());
    }
    if (step.form() instanceof Step.ByHand to) {
      return turned(to.targetDegrees(), QUICK_DEGREES_PER_SECOND) ? done(step) : Optional.empty();
    }
    if (step.form() instanceof Step.Cam cam) {
      return cam(state, cam);
    }
    if (step.form() instanceof Step.Calibrate) {
      return calibrate(state);
    }
    stops(step.key());
    return done(step);
  }

  private void stops(StepKey key) {
    double closed = hand.closedStopDegrees();
    double open = hand.openStopDegrees();
    double back =
        bench.simulation().unitType().setUp().stopTurnsBack()
            * bench.simulation().unitType().setUp().stopDegreesPerTurn().orElse(1.0);
    switch (key) {
      case STOPS_OUT -> hand.setStops(closed - CLEAR_DEGREES, open + CLEAR_DEGREES);
      case CLOSED_STOP -> hand.setStops(hand.wheelDegrees() - back, open);
      case OPEN_STOP -> hand.setStops(closed, hand.wheelDegrees() + back);
      default -> hand.letGo();
    }
  }

  private Optional<SetUpAnswer> calibrate(SetUpState state) {
    if (state.live().calibration().isEmpty()) {
      if (!state.allowed().contains(SetUpAnswer.Kind.BEGIN)) {
        return Optional.of(new SetUpAnswer.Skip("the unit has no power"));
      }
      hand.startCalibration();
      return Optional.of(new SetUpAnswer.Begin());
    }
    if (hand.calibrating()) {
      return Optional.empty();
    }
    heard.put(FieldKey.RESULT, hand.calibrationSucceeded() ? "succeeded" : "failed");
    return done(state.step());
  }

  /** The stem's angle, by the scale that is on it. */
  private boolean turned(double degrees, double speed) {
    if (Math.abs(hand.wheelDegrees() - degrees) < THERE_DEGREES) {
      return true;
    }
    if (!hand.busy()) {
      hand.turnWheel(degrees, speed);
    }
    return false;
  }

  private Optional<SetUpAnswer> cam(SetUpState state, Step.Cam cam) {
    Live live = state.live();
    double place = live.targetDegrees().orElse(hand.wheelDegrees());
    double out = outwards(cam.which());
    Hint hint = live.hint().orElse(Hint.BY_EAR);
    switch (hint) {
      case GOOD -> {
        return done(state.step());
      }
      case ODD -> {
        return Optional.of(new SetUpAnswer.Skip("its contact changes the wrong way"));
      }
      case BY_EAR -> {
        return byEar(state, cam, place);
      }
      case STOP -> hand.letGo();
      case TO_PLACE -> turned(place, QUICK_DEGREES_PER_SECOND);
      case BACK -> turned(place - out * CLEAR_DEGREES / 2.0, SLOW_DEGREES_PER_SECOND);
      case ON -> turnOn(place + out * CLEAR_DEGREES / 2.0);
      case CAM_ON -> cam(cam.which(), -out);
      case EARLY, LATE -> again(cam.which(), place, hint == Hint.EARLY ? out : -out);
    }
    return Optional.empty();
  }

  /** Whoever comes from inside lets go of what was turned back first. */
  private void turnOn(double degrees) {
    if (!back) {
      hand.letGo();
      back = true;
    }
    turned(degrees, SLOW_DEGREES_PER_SECOND);
  }

  private void again(LimitSwitch which, double place, double way) {
    back = false;
    if (turned(place, QUICK_DEGREES_PER_SECOND)) {
      cam(which, way);
    }
  }

  private void cam(LimitSwitch which, double way) {
    if (!hand.busy()) {
      hand.turnCam(which, hand.camDegrees(which) + way * CAM_REACH_DEGREES, CAM_DEGREES_PER_SECOND);
    }
  }

  /** With nothing to watch the switch: by its click, and by a scale. */
  private Optional<SetUpAnswer> byEar(SetUpState state, Step.Cam cam, double place) {
    boolean made = bench.made(cam.which());
    double out = outwards(cam.which());
    if (heard.isEmpty() && !back) {
      hand.turnCam(cam.which(), place, 1000.0);
      back = turned(place - out * CLEAR_DEGREES / 2.0, QUICK_DEGREES_PER_SECOND) && !made;
      return Optional.empty();
    }
    if (!heard.containsKey(FieldKey.TRIP_DEG)) {
      turned(place + out, SLOW_DEGREES_PER_SECOND);
      return made ? click(state, FieldKey.TRIP_DEG) : Optional.empty();
    }
    if (!heard.containsKey(FieldKey.RESET_DEG)) {
      turned(place - out * CLEAR_DEGREES / 2.0, SLOW_DEGREES_PER_SECOND);
      return made ? Optional.empty() : click(state, FieldKey.RESET_DEG);
    }
    return state.allowed().contains(SetUpAnswer.Kind.DONE) ? done(state.step()) : Optional.empty();
  }

  private Optional<SetUpAnswer> click(SetUpState state, FieldKey which) {
    heard.put(which, Double.toString(Math.round(hand.wheelDegrees() * 10.0) / 10.0));
    hand.letGo();
    return state.allowed().contains(SetUpAnswer.Kind.MARK)
        ? Optional.of(new SetUpAnswer.Mark())
        : Optional.empty();
  }

  private Optional<SetUpAnswer> done(Step step) {
    return Optional.of(new SetUpAnswer.Done(typed(step)));
  }

  /**
   * What stands there, what was heard, what the display says; else the first word that is there.
   */
  private Map<FieldKey, String> typed(Step step) {
    Map<FieldKey, String> typed = new EnumMap<>(FieldKey.class);
    for (Field field : step.fields()) {
      String usual =
          field.kind() instanceof Field.Choice choice ? choice.words().get(0) : field.preset();
      String ordered = ordered(field.key()).orElse(usual);
      String known = Optional.ofNullable(heard.get(field.key())).orElse(ordered);
      typed.put(field.key(), Optional.ofNullable(said.get(field.key())).orElse(known));
    }
    return typed;
  }

  private Optional<String> ordered(FieldKey key) {
    UnitType unit = bench.simulation().unitType();
    return switch (key) {
      case LOOP_OHM -> plain(unit.loopOhms());
      case SOFTWARE -> unit.setUp().software();
      case VOLTAGE_V -> plain(unit.setUp().supplyVolts());
      case DEAD_BAND_PCT -> plain(OptionalDouble.of(unit.deadBandPercent()));
      case LOSS_ACTION -> Optional.of(unit.signalLoss().action().key());
      case DIRECTION -> Optional.of(unit.signal().spanMilliamps() < 0 ? "reverse" : "direct");
      case ANGLE_DEG -> plain(OptionalDouble.of(Math.round(hand.wheelDegrees() * 10.0) / 10.0));
      default -> Optional.empty();
    };
  }

  private static Optional<String> plain(OptionalDouble value) {
    return value.isPresent() ? Optional.of(Double.toString(value.getAsDouble())) : Optional.empty();
  }

  private static double outwards(LimitSwitch which) {
    return which == LimitSwitch.OPEN || which == LimitSwitch.OPEN_AUXILIARY ? 1.0 : -1.0;
  }
}
