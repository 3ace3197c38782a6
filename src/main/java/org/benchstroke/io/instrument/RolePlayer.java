package org.benchstroke.io.instrument;

import java.util.Optional;

/**
 * An instrument that may play any role; each is there if it plays it. One thread owns it and all of
 * its roles.
 */
public interface RolePlayer extends Instrument {
  Optional<SignalSource> signalSource();

  Optional<PositionTransmitter> positionTransmitter();

  Optional<AngleReference> angleReference();

  Optional<LoopMeter> loopMeter();

  Optional<SupplyMeter> supplyMeter();

  /** Present if at least one switch is wired. */
  Optional<SwitchReader> switchReader();

  Optional<MotorPower> motorPower();
}
