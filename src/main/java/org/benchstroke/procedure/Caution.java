package org.benchstroke.procedure;

import java.util.List;
import org.benchstroke.unit.UnitType;

/**
 * The cautions and when they are shown. Basis: ISO 14118, IEC 60204-1 and local lockout rules; the
 * words are our own.
 */
public enum Caution {
  SESSION(
      "session",
      "Bench work only: the valve is out of the line and holds no pressure. This program is not a"
          + " safety function: keep the hard-wired stop within reach. Local rules and licensed"
          + " persons come first.",
      false),
  MATING(
      "mating",
      "Mate and wire with the power off and locked. The valve bore cuts. Power and signal run in"
          + " separate cables. Behind covers there may be live terminals: competent persons only."
          + " Then keep clear: currents will be put on the unit's input, and if its supply is not"
          + " off, it will move.",
      false),
  AIR_AND_SPRING(
      "air and spring",
      "This unit is driven by air against a spring, which keeps its force without air and without"
          + " signal. Shut the air off, vent it and prove that it is gone before hands go near stem,"
          + " lever or coupling. Secure every hose. Air that comes back moves the unit at once, and"
          + " loss of air lets the spring move it. Never open a spring housing here.",
      false),
  POWER_OFF(
      "power off",
      "Switch the motor power of the unit off and lock it. The checks that follow put 4 to 20 mA"
          + " on its input.",
      false),
  MOTION(
      "motion",
      "THE UNIT WILL MOVE. Hands clear of valve, lever and hand wheel. If its motor power has been"
          + " off until now, switch it on once you are clear.",
      true),
  MOTION_BY_RELAY(
      "motion by relay",
      "THE UNIT WILL MOVE. Hands clear of valve, lever and hand wheel. The bench switches its motor"
          + " power on by itself after your answer.",
      true),
  END_STOPS(
      "end stops",
      "The unit will now creep into both ends of its travel. Recheck stops and cams before it goes"
          + " there under power: an end switch must trip before its stop is reached. Hands clear.",
      true),
  SIGNAL_LOSS(
      "signal loss",
      "The signal will now be taken away. The unit may move suddenly, either way, and again when"
          + " the signal returns. Hands clear.",
      true),
  POWER_LOSS(
      "power loss",
      "The motor power will now be taken away and given back. The unit may move when it is lost and"
          + " starts by itself when it returns. Hands clear.",
      true),
  WIRING(
      "wiring",
      "Wire with the power off and locked. Power and signal run in separate cables and through"
          + " separate entries. The shield is earthed at one end only. A board that takes signals"
          + " only is destroyed by power.",
      false),
  COVER_OFF(
      "cover off",
      "Behind the cover there may be live terminals, and after isolation capacitors and springs"
          + " still hold energy: competent persons only. Prove dead before you touch anything.",
      false),
  HAND_WHEEL(
      "hand wheel",
      "Turn the hand wheel only with the power off and locked: the motor can drive the wheel and"
          + " break a hand.",
      false),
  STOPS_AND_CAMS(
      "stops and cams",
      "The stops and cams that you set now are all that ends the travel under power. Screw a stop"
          + " in only with the power off and locked, and never drive onto one. Both are checked"
          + " again before the power comes on.",
      false),
  AUTO_CALIBRATION(
      "auto-calibration",
      "THE UNIT WILL MOVE BY ITSELF, to both ends, as soon as its own calibration is started, and"
          + " it may start again after a pause. Hands clear of valve, lever and hand wheel.",
      true),
  AIR(
      "air",
      "Shut the air off, vent the actuator and lock the valve of the supply. Trapped air moves the"
          + " unit suddenly: look at the gauge before you put a hand in.",
      false),
  SPRING(
      "spring",
      "The spring in the housing is under load, with the air off too. Never undo the housing, and"
          + " keep clear of lever and bore: without air the unit goes to its spring's end.",
      false),
  AIR_BY_HAND(
      "air by hand",
      "THE UNIT WILL MOVE with every change of the regulator, and without air its spring drives it"
          + " back. Let the air in slowly. Hands clear of valve and lever while it moves.",
      true),
  AIR_ON(
      "air on",
      "THE UNIT WILL MOVE as soon as the positioner has its air. Hands clear of valve and lever;"
          + " then open the air.",
      true),
  AS_NOTED(
      "as noted",
      "What was noted when the unit was set up is not what was ordered: see the lines above. Go on"
          + " only if you know why; otherwise put it right and set the unit up again.",
      false),
  LINK_LOST(
      "link lost",
      "The link was lost: the position is unknown and the unit may still move. Keep clear; use the"
          + " hard-wired stop if in doubt.",
      false);

  private final String id;
  private final String text;
  private final boolean startsMotion;

  Caution(String id, String text, boolean startsMotion) {
    this.id = id;
    this.text = text;
    this.startsMotion = startsMotion;
  }

  /** Those before hands do anything to a unit, in order. */
  public static List<Caution> beforeWork(UnitType unit) {
    return unit.drive() == UnitType.Drive.PNEUMATIC
        ? List.of(SESSION, MATING, AIR_AND_SPRING)
        : List.of(SESSION, MATING);
  }

  /** The one before the first motion. */
  public static Caution firstMotion(boolean relay) {
    return relay ? MOTION_BY_RELAY : MOTION;
  }

  public String id() {
    return id;
  }

  public String text() {
    return text;
  }

  /** Whether the unit moves once it is acknowledged: that wants an answer of its own. */
  public boolean startsMotion() {
    return startsMotion;
  }
}
