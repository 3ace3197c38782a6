package org.benchstroke.setup;

import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.benchstroke.io.instrument.LimitSwitch;
import org.benchstroke.record.Event;

/** What was measured at a step, by the names that a record has for it. One thread. */
final class Measured {
  private final SwitchAngle angles;
  private final Map<LimitSwitch, SwitchAngle.Found> trips = new EnumMap<>(LimitSwitch.class);

  Measured(SwitchAngle angles) {
    this.angles = angles;
  }

  /** Where a switch was found to trip. */
  Optional<SwitchAngle.Found> trip(LimitSwitch which) {
    return Optional.ofNullable(trips.get(which));
  }

  /**
   * What was measured of a switch.
   *
   * @param ended the steps before it, for an end switch whose angle was typed
   */
  void cam(
      Step.Cam form, CamWatch watch, List<Event.SetUpStep> ended, Map<String, Double> figures) {
    watch.trip().ifPresent(t -> edge(figures, t, FieldKey.TRIP_DEG, FieldKey.TRIP_U_DEG));
    watch.reset().ifPresent(r -> edge(figures, r, FieldKey.RESET_DEG, FieldKey.RESET_U_DEG));
    watch.differential().ifPresent(d -> put(figures, FieldKey.DIFFERENTIAL_DEG, d));
    watch.trip().ifPresent(trip -> trips.put(form.which(), trip));
    Optional<SwitchAngle.Found> outer = form.ends().map(trips::get);
    if (outer.isPresent() && watch.trip().isPresent()) {
      double outwards = form.openEnd() ? 1.0 : -1.0;
      double between = outer.get().edge().degrees() - watch.trip().get().edge().degrees();
      put(figures, FieldKey.LEAD_DEG, outwards * between);
      put(
          figures,
          FieldKey.LEAD_U_DEG,
          angles.difference(watch.trip().get(), outer.get()).expand().half());
    } else {
      typedLead(form, ended, figures);
    }
  }

  /** Of angles that were read by eye. */
  private static void typedLead(
      Step.Cam form, List<Event.SetUpStep> ended, Map<String, Double> figures) {
    Optional<Double> own = Optional.ofNullable(figures.get(FieldKey.TRIP_DEG.key()));
    Optional<Double> outer =
        ended.stream()
            .filter(each -> form.ends().isPresent())
            .filter(
                each ->
                    each.step()
                        .equals(
                            (form.openEnd() ? StepKey.OPEN_SWITCH : StepKey.CLOSED_SWITCH).key()))
            .findFirst()
            .flatMap(each -> Optional.ofNullable(each.figures().get(FieldKey.TRIP_DEG.key())));
    if (own.isPresent() && outer.isPresent()) {
      double outwards = form.openEnd() ? 1.0 : -1.0;
      put(figures, FieldKey.LEAD_DEG, outwards * (outer.get() - own.get()));
    }
  }

  private static void edge(
      Map<String, Double> figures, SwitchAngle.Found found, FieldKey value, FieldKey expanded) {
    put(figures, value, found.edge().degrees());
    if (found.edge().expandedDegrees() > 0.0) {
      put(figures, expanded, found.edge().expandedDegrees());
    }
  }

  /** What was watched of the unit's own calibration. */
  static void calibration(
      CalibrationWatch watch,
      long nowNanos,
      Map<String, Double> figures,
      Map<String, String> facts) {
    put(figures, FieldKey.CALIBRATION_S, watch.movedSeconds().orElse(watch.seconds(nowNanos)));
    watch.firstWay().ifPresent(way -> facts.put(FieldKey.FIRST_WAY.key(), way));
    boolean angle = watch.byAngle();
    watch
        .lowest()
        .ifPresent(v -> put(figures, angle ? FieldKey.LOWEST_DEG : FieldKey.LOWEST_PCT, v));
    watch
        .highest()
        .ifPresent(v -> put(figures, angle ? FieldKey.HIGHEST_DEG : FieldKey.HIGHEST_PCT, v));
  }

  private static void put(Map<String, Double> figures, FieldKey key, double value) {
    figures.put(key.key(), value);
  }
}
