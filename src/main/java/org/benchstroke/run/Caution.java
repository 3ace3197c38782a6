package org.benchstroke.run;

/**
 * The cautions and when they are shown. Basis: ISO 14118, IEC 60204-1 and local lockout rules; the
 * words are our own.
 */
public enum Caution {
  SESSION(
      "session",
      "Bench work only: the valve is out of the line and holds no pressure. This program is not a"
          + " safety function: keep the hard-wired stop within reach. Local rules and licensed"
          + " persons come first."),
  MATING(
      "mating",
      "Mate and wire with the power off and locked. The valve bore cuts. Power and signal run in"
          + " separate cables. Behind covers there may be live terminals: competent persons only."
          + " Then keep clear: currents will be put on its input, and should its supply not be off,"
          + " it moves."),
  POWER_OFF(
      "power off",
      "Switch the motor power of the unit off and lock it. The checks that come now put 4 to 20 mA"
          + " on its input."),
  MOTION(
      "motion",
      "THE UNIT WILL MOVE. Hands clear of valve, lever and hand wheel. With motor power off until"
          + " now, switch it on when you are clear."),
  END_STOPS(
      "end stops",
      "The unit creeps into both ends of its travel now. Recheck stops and cams before it goes"
          + " there under power: an end switch must trip before its stop is met. Hands clear."),
  SIGNAL_LOSS(
      "signal loss",
      "The signal is taken away now. The unit may move suddenly, either way, and again when the"
          + " signal returns. Hands clear."),
  POWER_LOSS(
      "power loss",
      "The motor power is taken away now and given back. The unit may move when it is lost and"
          + " starts by itself when it returns. Hands clear."),
  LINK_LOST(
      "link lost",
      "The link was lost: the position is unknown and the unit may still move. Keep clear; use the"
          + " hard-wired stop if in doubt.");

  private final String id;
  private final String text;

  Caution(String id, String text) {
    this.id = id;
    this.text = text;
  }

  public String id() {
    return id;
  }

  public String text() {
    return text;
  }
}
