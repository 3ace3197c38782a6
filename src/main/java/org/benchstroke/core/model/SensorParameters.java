package org.benchstroke.core.model;

import java.util.List;

/**
 * The position sensor that the controller goes by. Its errors move the stem without showing in the
 * feedback. Immutable.
 *
 * @param place what it sits on
 * @param zeroPercent what it shows too much at 0 %, % of span, ±20
 * @param spanPercent what its span is too large by, %, ±20
 * @param bowPercent what it shows too much at mid travel, % of span, ±20
 * @param deadSpots where a worn track reads 0
 * @param noisePercent standard deviation of its noise, % of span, 0..10
 * @param worn where its noise is larger
 */
public record SensorParameters(
    Place place,
    double zeroPercent,
    double spanPercent,
    double bowPercent,
    List<DeadSpot> deadSpots,
    double noisePercent,
    Worn worn)
    implements ModelParameters.Part {

  /** What the sensor sits on: it can't see what lies beyond. */
  public enum Place {
    GEAR("gear"),
    OUTPUT("output"),
    STEM("stem");

    private final String key;

    Place(String key) {
      this.key = key;
    }

    /** The word for it in files. */
    public String key() {
      return key;
    }
  }

  /**
   * A stretch of a worn track.
   *
   * @param fromPercent where it begins, % of span, −10..110
   * @param toPercent where it ends; equal to the beginning means none
   * @param noisePercent standard deviation of the noise there, % of span, 0..10
   */
  public record Worn(double fromPercent, double toPercent, double noisePercent) {
    static final Worn NOWHERE = new Worn(0.0, 0.0, 0.0);

    public Worn {
      Require.within("worn track's beginning, %,", fromPercent, -10, 110);
      Require.within("worn track's end, %,", toPercent, fromPercent, 110);
      Require.within("worn track's noise, %,", noisePercent, 0, 10);
    }
  }

  /**
   * A stretch of the track that reads 0.
   *
   * @param fromPercent where it begins, % of span, −10..110
   * @param toPercent where it ends; equal to the beginning means none
   */
  public record DeadSpot(double fromPercent, double toPercent) {
    public DeadSpot {
      Require.within("dead spot's beginning, %,", fromPercent, -10, 110);
      Require.within("dead spot's end, %,", toPercent, fromPercent, 110);
    }

    boolean covers(double percent) {
      return percent >= fromPercent && percent < toPercent;
    }
  }

  public SensorParameters {
    Require.within("sensor zero, %,", zeroPercent, -20, 20);
    Require.within("sensor span, %,", spanPercent, -20, 20);
    Require.within("sensor bow, %,", bowPercent, -20, 20);
    Require.within("sensor noise, %,", noisePercent, 0, 10);
    deadSpots = deadSpots.stream().filter(spot -> spot.fromPercent() < spot.toPercent()).toList();
  }

  /** A sensor on the output shaft whose track is not worn. */
  public SensorParameters(
      double zeroPercent, double spanPercent, double bowPercent, double noisePercent) {
    this(Place.OUTPUT, zeroPercent, spanPercent, bowPercent, List.of(), noisePercent, Worn.NOWHERE);
  }

  static SensorParameters baseline() {
    return new SensorParameters(0.0, 0.0, 0.0, 0.01);
  }

  public SensorParameters on(Place other) {
    return new SensorParameters(
        other, zeroPercent, spanPercent, bowPercent, deadSpots, noisePercent, worn);
  }

  public SensorParameters withDeadSpot(double fromPercent, double toPercent) {
    return withDeadSpots(List.of(new DeadSpot(fromPercent, toPercent)));
  }

  public SensorParameters withDeadSpots(List<DeadSpot> spots) {
    return new SensorParameters(
        place, zeroPercent, spanPercent, bowPercent, spots, noisePercent, worn);
  }

  public SensorParameters withNoise(double percent, Worn stretch) {
    return new SensorParameters(
        place, zeroPercent, spanPercent, bowPercent, deadSpots, percent, stretch);
  }
}
