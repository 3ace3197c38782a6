package org.benchstroke.simulator;

import java.util.Map;
import org.benchstroke.core.model.CalibrationParameters;
import org.benchstroke.core.model.CamParameters;
import org.benchstroke.core.model.ControlParameters;
import org.benchstroke.core.model.InputParameters;
import org.benchstroke.core.model.LossParameters;
import org.benchstroke.core.model.MechanicsParameters;
import org.benchstroke.core.model.ModelParameters;
import org.benchstroke.core.model.MotorParameters;
import org.benchstroke.core.model.TransmitterParameters;
import org.benchstroke.core.model.TravelParameters;
import org.benchstroke.core.quantity.Angle;
import org.benchstroke.io.instrument.LimitSwitch;
import org.benchstroke.unit.FailAction;
import org.benchstroke.unit.UnitType;

/** A sound unit of a type: what its type does not tell is as in the model's baseline. */
final class SimulatedUnits {
  private static final double NOMINAL_DEGREES = 90.0;
  private static final double STOP_MARGIN_DEGREES = 2.0;

  /** The stop threshold as a share of the start threshold: the baseline's. */
  private static final double STOP_SHARE = 0.8;

  private SimulatedUnits() {}

  /** A sound unit. */
  static ModelParameters sound(UnitType type) {
    ModelParameters base = ModelParameters.baseline();
    return base.with(motor(base.motor(), type))
        .with(mechanics(base.mechanics(), type))
        .with(transmitter(base.transmitter(), type))
        .with(input(base.input(), type))
        .with(control(base.control(), type))
        .with(loss(base.loss(), type))
        .with(cams(base.cams(), type))
        .with(CalibrationParameters.byHand(0.0, type.travelDegrees()));
  }

  private static MotorParameters motor(MotorParameters base, UnitType type) {
    return base.withStroke(type.strokeSeconds() * NOMINAL_DEGREES / type.travelDegrees());
  }

  private static MechanicsParameters mechanics(MechanicsParameters base, UnitType type) {
    return base.withTravel(
        new TravelParameters(
            type.travelDegrees(),
            -STOP_MARGIN_DEGREES,
            type.travelDegrees() + STOP_MARGIN_DEGREES));
  }

  private static TransmitterParameters transmitter(TransmitterParameters base, UnitType type) {
    return new TransmitterParameters(
        type.feedback(),
        base.lagSeconds(),
        base.bits(),
        base.lowestMilliamps(),
        base.highestMilliamps(),
        base.zeroPercent(),
        base.spanPercent());
  }

  private static InputParameters input(InputParameters base, UnitType type) {
    return base.withLoop(base.complianceVolts(), type.loopOhms().orElse(base.loopOhms()));
  }

  private static ControlParameters control(ControlParameters base, UnitType type) {
    return new ControlParameters(
        type.signal(),
        type.deadBandPercent(),
        STOP_SHARE * type.deadBandPercent(),
        base.periodSeconds(),
        base.filterSeconds(),
        base.relaySeconds(),
        type.offSeconds(),
        type.characteristic());
  }

  /** Its threshold lies between the signals that it must hold and must miss, its delay is half. */
  private static LossParameters loss(LossParameters base, UnitType type) {
    UnitType.SignalLoss ordered = type.signalLoss();
    double between =
        (ordered.holdsMilliamps().milliamps() + ordered.lostMilliamps().milliamps()) / 2.0;
    LossParameters.Action action = action(ordered.action());
    return new LossParameters(
        between,
        base.highMilliamps(),
        base.returnMilliamps(),
        base.openMilliamps(),
        ordered.delaySeconds() / 2.0,
        action,
        action);
  }

  private static LossParameters.Action action(FailAction ordered) {
    return switch (ordered) {
      case CLOSE -> LossParameters.Action.CLOSE;
      case OPEN -> LossParameters.Action.OPEN;
      case STAY -> LossParameters.Action.STAY;
    };
  }

  private static CamParameters cams(CamParameters base, UnitType type) {
    Map<LimitSwitch, Angle> set = type.switches();
    double beyond = type.travelDegrees() - NOMINAL_DEGREES;
    return new CamParameters(
        degrees(set, LimitSwitch.CLOSED, base.closedDegrees()),
        degrees(set, LimitSwitch.OPEN, base.openDegrees() + beyond),
        degrees(set, LimitSwitch.CLOSED_AUXILIARY, base.closedAuxiliaryDegrees()),
        degrees(set, LimitSwitch.OPEN_AUXILIARY, base.openAuxiliaryDegrees() + beyond),
        base.differentialDegrees(),
        base.bounceSeconds());
  }

  private static double degrees(Map<LimitSwitch, Angle> set, LimitSwitch which, double otherwise) {
    Angle angle = set.get(which);
    return angle == null ? otherwise : angle.degrees();
  }
}
