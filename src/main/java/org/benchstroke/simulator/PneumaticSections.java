package org.benchstroke.simulator;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.benchstroke.core.model.AirParameters;
import org.benchstroke.core.model.ControlParameters;
import org.benchstroke.core.model.LossParameters;
import org.benchstroke.core.model.ModelParameters;
import org.benchstroke.core.model.PneumaticParameters;
import org.benchstroke.core.model.PneumaticParameters.Spring;
import org.benchstroke.core.model.PositionerParameters;
import org.benchstroke.core.toml.TomlSection;

/**
 * The tables {@code [pneumatic]}, {@code [pneumatic.air]} and {@code [pneumatic.positioner]}. A
 * unit is pneumatic if the first is there; the tables of a motor then have no place.
 */
final class PneumaticSections {
  private static final String TABLE = "pneumatic";
  private static final List<String> OF_MOTOR =
      List.of("motor", "supply", "load", "control", "heat");

  private PneumaticSections() {}

  /** An air drive, and what every controller has as its positioner has it. */
  private record Parts(PneumaticParameters pneumatic, ControlParameters control) {}

  /** Reads them, if the unit is pneumatic. */
  static ModelParameters read(TomlSection root, ModelParameters unit) {
    if (!root.has(TABLE)) {
      return unit;
    }
    for (String table : OF_MOTOR) {
      if (root.has(table)) {
        root.mistake(
            table, "a pneumatic unit has no motor; see [pneumatic.air], [pneumatic.positioner]");
      }
    }
    Parts sound = new Parts(sound(unit), unit.control());
    Parts parts = UnitSections.part(root, TABLE, sound, PneumaticSections::parts);
    requireNothingButTheSpring(root, unit.loss(), parts.pneumatic().spring());
    return unit.with(parts.control()).with(parts.pneumatic());
  }

  private static Parts parts(TomlSection s, Parts sound) {
    PneumaticParameters p = sound.pneumatic();
    AirParameters air = UnitSections.part(s, "air", p.air(), PneumaticSections::air);
    Optional<TomlSection> positioner = s.optionalSection("positioner");
    PositionerParameters spool =
        positioner.map(t -> spool(t, p.positioner())).orElse(p.positioner());
    ControlParameters control =
        positioner.map(t -> control(t, sound.control())).orElse(sound.control());
    positioner.ifPresent(TomlSection::noOtherKeys);
    return new Parts(pneumatic(s, p, air, spool), control);
  }

  /**
   * A sound one of the unit's type: its spring does what was ordered for the loss of the signal.
   */
  private static PneumaticParameters sound(ModelParameters unit) {
    double stroke = unit.motor().strokeSeconds() * unit.mechanics().travel().spanDegrees() / 90.0;
    boolean opens = unit.loss().action() == LossParameters.Action.OPEN;
    return PneumaticParameters.sound(
        opens ? Spring.OPENS : Spring.CLOSES,
        stroke,
        PositionerParameters.baseline()
            .withDeadZone(Math.min(10.0, unit.control().startPercent() / 2.0)));
  }

  /** Where it goes without its signal is written once: at the spring. */
  private static void requireNothingButTheSpring(
      TomlSection root, LossParameters loss, Spring spring) {
    root.optionalSection("loss")
        .ifPresent(
            section -> {
              Map<String, LossParameters.Action> told = new LinkedHashMap<>();
              told.put("action", loss.action());
              told.put("open_loop_action", loss.openLoopAction());
              told.forEach(
                  (key, action) -> {
                    boolean stays = action == LossParameters.Action.STAY;
                    boolean same =
                        (action == LossParameters.Action.OPEN) == (spring == Spring.OPENS);
                    if (section.has(key) && !stays && !same) {
                      section.mistake(key, "without its signal the spring drives it; set spring");
                    }
                  });
            });
  }

  private static AirParameters air(TomlSection s, AirParameters a) {
    return new AirParameters(
        UnitSections.number(s, "supply_bar", 0, 10, "bar", a.supplyBar()),
        UnitSections.number(s, "rated_bar", 1, 10, "bar", a.ratedBar()),
        UnitSections.number(s, "regulator_s", 0.001, 60, "s", a.regulatorSeconds()),
        UnitSections.number(s, "capacity_ratio", 0.1, 1000, "× swept", a.capacityRatio()),
        UnitSections.number(s, "pilot_bar", 0, 3, "bar", a.pilotBar()));
  }

  private static PneumaticParameters pneumatic(
      TomlSection s, PneumaticParameters p, AirParameters air, PositionerParameters positioner) {
    Map<String, Spring> springs = new LinkedHashMap<>();
    for (Spring spring : Spring.values()) {
      springs.put(spring.key(), spring);
    }
    return new PneumaticParameters(
        s.optionalChoice("spring", springs).orElse(p.spring()),
        UnitSections.number(s, "air_s", 0.2, 300, "s", p.airSeconds()),
        UnitSections.number(s, "spring_s", 0.2, 300, "s", p.springSeconds()),
        UnitSections.number(s, "spring_from_bar", 0.1, 8, "bar", p.springFromBar()),
        UnitSections.number(s, "spring_to_bar", 0.2, 9.9, "bar", p.springToBar()),
        UnitSections.number(s, "dead_volume_ratio", 0.05, 5, "× swept", p.deadVolumeRatio()),
        UnitSections.number(s, "damping_s", 0.001, 5, "s", p.dampingSeconds()),
        UnitSections.number(s, "stick_pct", 0, 30, "% of span", p.stickPercent()),
        UnitSections.number(s, "slide_pct", 0, 30, "% of span", p.slidePercent()),
        air,
        positioner);
  }

  private static PositionerParameters spool(TomlSection s, PositionerParameters p) {
    return new PositionerParameters(
        UnitSections.number(s, "gain", 0.5, 200, "%/%", p.gain()),
        UnitSections.number(s, "dead_zone_pct", 0, 10, "% of span", p.deadZonePercent()),
        UnitSections.number(s, "cut_off_pct", 0, 5, "% of span", p.cutOffPercent()));
  }

  /** The part of a positioner that every controller has. */
  private static ControlParameters control(TomlSection s, ControlParameters c) {
    return new ControlParameters(
        s.optionalChoice("action", UnitSections.actions(c)).orElse(c.signal()),
        c.startPercent(),
        c.stopPercent(),
        UnitSections.number(s, "period_s", 0.001, 1, "s", c.periodSeconds()),
        UnitSections.number(s, "filter_s", 0.001, 5, "s", c.filterSeconds()),
        c.relaySeconds(),
        c.offSeconds(),
        c.characteristic());
  }
}
