package org.benchstroke.simulator;

import org.benchstroke.model.Noise;
import org.benchstroke.quantity.Accuracy;
import org.benchstroke.quantity.Numbers;

/**
 * What the data sheet of a simulated instrument says. Makers and numbers are invented.
 *
 * @param model its model
 * @param serial its serial number
 * @param certificate the number of its certificate
 * @param unit the unit of its values
 * @param percentOfReading the part of its largest error that grows with the reading, %
 * @param absolute the constant part of its largest error, in its unit
 * @param resolution its step, in its unit
 * @param low its smallest value
 * @param high its largest value
 */
record DataSheet(
    String model,
    String serial,
    String certificate,
    String unit,
    double percentOfReading,
    double absolute,
    double resolution,
    double low,
    double high) {
  static final String MAKER = "Example Instruments";

  static final DataSheet SOURCE =
      new DataSheet("LS24", "900101", "SIM-0101", "mA", 0.02, 0.002, 0.001, 0.0, 24.0);
  static final DataSheet LOOP_METER =
      new DataSheet("LM6", "900202", "SIM-0202", "mA", 0.01, 0.001, 0.0001, 0.0, 30.0);
  static final DataSheet POSITION_INPUT =
      new DataSheet("PX4", "900303", "SIM-0303", "mA", 0.02, 0.001, 0.001, 0.0, 24.0);
  static final DataSheet ANGLE_REFERENCE =
      new DataSheet("AR360", "900404", "SIM-0404", "deg", 0.0, 0.05, 0.01, -180.0, 360.0);

  /** As *IDN? answers it. */
  String identity() {
    return MAKER + "," + model + "," + serial + ",1.0";
  }

  /** The accuracy as a data sheet prints it. */
  String accuracyText() {
    String constant = Numbers.plain(absolute) + " " + (unit.equals("deg") ? "°" : unit);
    return percentOfReading > 0.0
        ? "±(" + Numbers.plain(percentOfReading) + " % of reading + " + constant + ")"
        : "±" + constant;
  }

  /** The largest error. */
  Accuracy accuracy() {
    return new Accuracy(percentOfReading, 0.0, 0.0, absolute);
  }

  /** One specimen of it: its own errors, drawn within half of what the data sheet allows. */
  Specimen specimen(long seed) {
    return new Specimen(this, new Noise(seed));
  }

  /** One specimen with its own errors, which stay the same, and its noise, which does not. */
  static final class Specimen {
    private static final double SHARE = 0.5;

    private final DataSheet sheet;
    private final double gain;
    private final double offset;
    private final Noise noise;

    private Specimen(DataSheet sheet, Noise noise) {
      this.sheet = sheet;
      this.gain = 1.0 + SHARE * noise.symmetric() * sheet.percentOfReading() / 100.0;
      this.offset = SHARE * noise.symmetric() * sheet.absolute();
      this.noise = noise;
    }

    DataSheet sheet() {
      return sheet;
    }

    /** What it really makes of a setting. */
    double made(double setting) {
      return Math.max(sheet.low(), setting * gain + offset);
    }

    /** What it shows of a true value: its errors, a half step of noise, its steps and its ends. */
    double shown(double truth) {
      double read = made(truth) + 0.5 * sheet.resolution() * noise.normal();
      double stepped = Math.rint(read / sheet.resolution()) * sheet.resolution();
      return Math.max(sheet.low(), Math.min(sheet.high(), stepped));
    }
  }
}
