package org.benchstroke.core.model;

/**
 * What turns the output shaft, with the controller that decides: the part in which a motorised and
 * a pneumatic unit differ.
 */
interface Drive {
  /** How many steps there are from one look of the controller at its inputs to the next. */
  long periodSteps();

  /** Takes what arrives: the current at the input and the position that the sensor shows. */
  void filter(double milliamps, double sensedPercent);

  /** Decides by the error. */
  void decide();

  /** Drives open (1), closed (−1) or nowhere (0), whatever the signal says. */
  void override(int direction);

  /** Does what the loss of the signal asks for: 1 opens, −1 closes, 0 stays. */
  void lost(int direction);

  /** Where it is driven by its controller: what has reached the relay or the spool. */
  int heading();

  /**
   * One step.
   *
   * @param supplied whether motor or air supply is on
   * @param cutsClosing whether the closed end switch is tripped
   * @param cutsOpening whether the open one is
   */
  void step(boolean supplied, boolean cutsClosing, boolean cutsOpening);

  /**
   * Turned by hand, with its supply off: by its wheel, or by a regulator that lets air in. No
   * further than a stop.
   *
   * @param degrees where to, at the gear, °
   */
  void turnByHand(double degrees);

  /** Screws the mechanical stops elsewhere, °; where it can't be done nothing changes. */
  default void setStops(double closedDegrees, double openDegrees) {}

  /** The stop beyond closed, °. */
  double closedStop();

  /** The stop beyond open, °. */
  double openStop();

  /** The angle at the gear, °. */
  double degrees();

  /** Where it moves or is driven: 1 opens, −1 closes, 0 rests. */
  int direction();

  /** What its warmth makes the feedback show too much, % of span. */
  double driftPercent();

  /** The voltage at the motor's terminals with its supply on, V; 0 without a motor. */
  double volts();

  /** The current of the motor with its supply on, A; 0 without a motor. */
  double amperes();

  /** The temperature of the motor's winding, °C; that of the room without a motor. */
  double celsius();

  /** Whether a thermal switch keeps the motor off. */
  boolean thermalTripped();
}
