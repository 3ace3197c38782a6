package org.benchstroke.model;

/**
 * The position sensor that the controller goes by. Its errors move the stem without showing in the
 * feedback. Immutable.
 *
 * @param zeroPercent what it shows too much at 0 %, % of span, ±20
 * @param spanPercent what its span is too large by, %, ±20
 * @param bowPercent what it shows too much at mid travel, % of span, ±20
 * @param deadSpotFromPercent where a worn track begins to read 0, % of span, −10..110
 * @param deadSpotToPercent where it ends; equal to the beginning means no dead spot
 * @param noisePercent standard deviation of its noise, % of span, 0..10
 */
public record SensorParameters(
    double zeroPercent,
    double spanPercent,
    double bowPercent,
    double deadSpotFromPercent,
    double deadSpotToPercent,
    double noisePercent) {
  public SensorParameters {
    Require.within("sensor zero, %,", zeroPercent, -20, 20);
    Require.within("sensor span, %,", spanPercent, -20, 20);
    Require.within("sensor bow, %,", bowPercent, -20, 20);
    Require.within("dead spot's beginning, %,", deadSpotFromPercent, -10, 110);
    Require.within("dead spot's end, %,", deadSpotToPercent, deadSpotFromPercent, 110);
    Require.within("sensor noise, %,", noisePercent, 0, 10);
  }

  static SensorParameters baseline() {
    return new SensorParameters(0.0, 0.0, 0.0, 0.0, 0.0, 0.01);
  }

  public SensorParameters withDeadSpot(double fromPercent, double toPercent) {
    return new SensorParameters(
        zeroPercent, spanPercent, bowPercent, fromPercent, toPercent, noisePercent);
  }
}
