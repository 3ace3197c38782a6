package org.benchstroke.bench;

import java.util.Map;
import java.util.OptionalDouble;
import org.benchstroke.core.toml.TomlSection;
import org.benchstroke.io.instrument.Channel;
import org.benchstroke.io.instrument.Role;

/** Reads when, where and by whom an instrument was calibrated. Stateless. */
final class CalibrationReader {
  private static final String CELSIUS = "calibrated_at_c";

  private CalibrationReader() {}

  static InstrumentSpec.Calibration read(TomlSection section) {
    String certificate = section.text("certificate");
    var calibrated = section.date("calibrated");
    var due = section.date("due");
    if (due.isBefore(calibrated) && section.has("due") && section.has("calibrated")) {
      section.mistake("due", "is before the day of calibration; check both days");
    }
    String laboratory = section.optionalText("calibrated_by").orElse("");
    OptionalDouble celsius =
        section.optionalNumber(CELSIUS, TemperatureReader.COLDEST, TemperatureReader.HOTTEST, "°C");
    return new InstrumentSpec.Calibration(
        certificate, calibrated, due, TemperatureReader.reference(section), laboratory, celsius);
  }

  /** A certificate's figures hold at the temperature of the calibration. */
  static void check(
      TomlSection section, InstrumentSpec.Calibration calibration, Map<Role, Channel> channels) {
    boolean certified = channels.values().stream().anyMatch(c -> c.certified().isPresent());
    if (certified && calibration.celsius().isEmpty() && !section.has(CELSIUS)) {
      section.mistake(
          CELSIUS,
          "is missing: the certificate's figures hold at the temperature of the calibration; write"
              + " it in °C");
    }
  }
}
