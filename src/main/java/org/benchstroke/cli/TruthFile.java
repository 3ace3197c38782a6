package org.benchstroke.cli;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import org.benchstroke.core.model.UnitTruth;
import org.benchstroke.papers.Json;

/**
 * The truth of a simulated unit as JSON: one object, names with their unit at the end, {@code null}
 * where the unit has no such value. Stateless.
 */
final class TruthFile {
  /** A millionth of a per cent, degree or second. */
  private static final double ROUNDING = 1e6;

  private TruthFile() {}

  static String text(String simulation, UnitTruth truth) {
    Map<String, Object> told = new LinkedHashMap<>();
    told.put("kind", "unit truth");
    told.put("format", 1);
    told.put("simulation", simulation);
    told.put("zero_error_pct", number(truth.zeroPercent()));
    told.put("span_error_pct", number(truth.spanPercent()));
    told.put("stem_zero_error_pct", number(truth.stemZeroPercent()));
    told.put("stem_span_error_pct", number(truth.stemSpanPercent()));
    told.put("dead_band_pct", number(truth.deadBandPercent()));
    told.put("resolution_pct", number(truth.resolutionPercent()));
    told.put("start_pct", number(truth.startPercent()));
    told.put("stop_pct", number(truth.stopPercent()));
    told.put("coast_pct", number(truth.coastPercent()));
    told.put("opening_s", number(truth.openingSeconds()));
    told.put("closing_s", number(truth.closingSeconds()));
    told.put("dead_time_s", number(truth.deadTime().deadSeconds()));
    told.put("reversal_dead_time_s", number(truth.reversalDeadTime().deadSeconds()));
    told.put("first_motion_s", number(truth.deadTime().firstMotionSeconds()));
    told.put("reversal_first_motion_s", number(truth.reversalDeadTime().firstMotionSeconds()));
    told.put("points", truth.points().stream().map(TruthFile::point).toList());
    told.put("switches", switches(truth));
    return Json.page(told);
  }

  private static Map<String, Object> point(UnitTruth.Point point) {
    Map<String, Object> told = new LinkedHashMap<>();
    told.put("travel_pct", rounded(point.percent()));
    told.put("up_error_pct", number(point.up()));
    told.put("down_error_pct", number(point.down()));
    told.put("stem_up_error_pct", number(point.stemUp()));
    told.put("stem_down_error_pct", number(point.stemDown()));
    return told;
  }

  private static List<Map<String, Object>> switches(UnitTruth truth) {
    List<Map<String, Object>> told = new ArrayList<>();
    truth
        .switches()
        .forEach(
            (name, angles) -> {
              Map<String, Object> one = new LinkedHashMap<>();
              one.put("switch", name);
              one.put("trip_deg", rounded(angles.tripDegrees()));
              one.put("reset_deg", rounded(angles.resetDegrees()));
              told.add(one);
            });
    return told;
  }

  private static Object number(OptionalDouble value) {
    return value.isPresent() ? rounded(value.getAsDouble()) : null;
  }

  private static double rounded(double value) {
    return Math.rint(value * ROUNDING) / ROUNDING + 0.0;
  }
}
