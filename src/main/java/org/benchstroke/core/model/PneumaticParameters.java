package org.benchstroke.core.model;

/**
 * A single-acting pneumatic actuator: air drives it one way, its spring the other. Pressures above
 * that of the room. Immutable. Common practice, no source.
 *
 * @param spring where the spring drives it once its air is gone
 * @param airSeconds full travel by air at the rated pressure, spool wide open, without friction, s,
 *     0.2..300
 * @param springSeconds full travel back by the spring, likewise
 * @param springFromBar the chamber's pressure at which air begins to move it, bar, 0.1..8
 * @param springToBar the one at which it has gone its full travel, bar, at least 0.1 above, and at
 *     least 0.1 below the rated supply
 * @param deadVolumeRatio volume of the chamber at the spring's end, × the volume that is swept,
 *     0.05..5
 * @param dampingSeconds time constant with which the spring alone moves it against its damping, s,
 *     0.001..5
 * @param stickPercent friction that holds it at rest: travel by which its spring must be out of
 *     balance, % of span, 0..30
 * @param slidePercent friction while it moves, likewise, at most the one at rest
 * @param air what it is fed with
 * @param positioner what lets the air in and out
 */
public record PneumaticParameters(
    Spring spring,
    double airSeconds,
    double springSeconds,
    double springFromBar,
    double springToBar,
    double deadVolumeRatio,
    double dampingSeconds,
    double stickPercent,
    double slidePercent,
    AirParameters air,
    PositionerParameters positioner)
    implements ModelParameters.Part {

  /** Where the spring drives it. */
  public enum Spring {
    CLOSES("closes"),
    OPENS("opens");

    private final String key;

    Spring(String key) {
      this.key = key;
    }

    /** The word for it in files. */
    public String key() {
      return key;
    }
  }

  public PneumaticParameters {
    Require.within("travel by air, s,", airSeconds, 0.2, 300);
    Require.within("travel by spring, s,", springSeconds, 0.2, 300);
    Require.within("spring's beginning, bar,", springFromBar, 0.1, 8);
    Require.within("spring's end, bar,", springToBar, springFromBar + 0.1, air.ratedBar() - 0.1);
    Require.within("dead volume, × swept volume,", deadVolumeRatio, 0.05, 5);
    Require.within("damping, s,", dampingSeconds, 0.001, 5);
    Require.within("sticking friction, %,", stickPercent, 0, 30);
    Require.within("sliding friction, %,", slidePercent, 0, stickPercent);
  }

  /** The example of this project: a spring of 2 to 4 bar that closes it, fed with 5.5 bar. */
  public static PneumaticParameters baseline() {
    return sound(Spring.CLOSES, 2.0, PositionerParameters.baseline());
  }

  /** The example with another spring, stroke time of both ways, s, and positioner. */
  public static PneumaticParameters sound(
      Spring spring, double strokeSeconds, PositionerParameters positioner) {
    return new PneumaticParameters(
        spring,
        strokeSeconds,
        strokeSeconds,
        2.0,
        4.0,
        0.2,
        0.03,
        1.0,
        0.8,
        AirParameters.baseline(),
        positioner);
  }
}
