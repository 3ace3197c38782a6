package org.benchstroke.simulator;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.function.BiFunction;
import org.benchstroke.core.model.Bow;
import org.benchstroke.core.model.CalibrationParameters;
import org.benchstroke.core.model.CamParameters;
import org.benchstroke.core.model.ControlParameters;
import org.benchstroke.core.model.FrictionParameters;
import org.benchstroke.core.model.HeatParameters;
import org.benchstroke.core.model.InputParameters;
import org.benchstroke.core.model.LinkageParameters;
import org.benchstroke.core.model.LoadParameters;
import org.benchstroke.core.model.LossParameters;
import org.benchstroke.core.model.MechanicsParameters;
import org.benchstroke.core.model.ModelParameters;
import org.benchstroke.core.model.MotorParameters;
import org.benchstroke.core.model.PlayParameters;
import org.benchstroke.core.model.SensorParameters;
import org.benchstroke.core.model.SupplyParameters;
import org.benchstroke.core.model.TransmitterParameters;
import org.benchstroke.core.model.TravelParameters;
import org.benchstroke.core.quantity.SignalRange;
import org.benchstroke.core.toml.TomlSection;

/**
 * The tables of a simulation file that say how the unit differs from a sound one. The ranges are
 * those of the parameters' Javadoc.
 */
final class UnitSections {
  private static final Map<String, Boolean> SWAPPED = swapped();

  private UnitSections() {}

  /** In the order in which messages name them. */
  private static Map<String, Boolean> swapped() {
    Map<String, Boolean> words = new LinkedHashMap<>();
    words.put("right", false);
    words.put("swapped", true);
    return words;
  }

  static ModelParameters read(TomlSection root, ModelParameters sound) {
    ModelParameters unit =
        new ModelParameters(
            part(root, "motor", sound.motor(), UnitSections::motor),
            part(root, "supply", sound.supply(), UnitSections::supply),
            part(root, "load", sound.load(), UnitSections::load),
            part(root, "mechanics", sound.mechanics(), UnitSections::mechanics),
            part(root, "sensor", sound.sensor(), UnitSections::sensor),
            part(root, "transmitter", sound.transmitter(), UnitSections::transmitter),
            part(root, "input", sound.input(), UnitSections::input),
            part(root, "control", sound.control(), UnitSections::control),
            part(root, "loss", sound.loss(), UnitSections::loss),
            part(root, "switches", sound.cams(), UnitSections::cams),
            part(root, "heat", sound.heat(), UnitSections::heat),
            part(root, "calibration", sound.calibration(), UnitSections::calibration),
            sound.pneumatic());
    return PneumaticSections.read(root, unit);
  }

  /** A table that may be left out; what it leaves out is as in a sound unit. */
  static <T> T part(TomlSection root, String name, T sound, BiFunction<TomlSection, T, T> reader) {
    return root.optionalSection(name)
        .map(
            section -> {
              T read = checked(section, sound, reader);
              section.noOtherKeys();
              return read;
            })
        .orElse(sound);
  }

  /** Some ranges hang on another value; the parameters check those themselves. */
  private static <T> T checked(TomlSection section, T sound, BiFunction<TomlSection, T, T> reader) {
    try {
      return reader.apply(section, sound);
    } catch (IllegalArgumentException e) {
      section.mistake("", e.getMessage());
      return sound;
    }
  }

  static double number(
      TomlSection s, String key, double low, double high, String unit, double sound) {
    return s.optionalNumber(key, low, high, unit).orElse(sound);
  }

  private static MotorParameters motor(TomlSection s, MotorParameters m) {
    Map<String, MotorParameters.Kind> kinds = new LinkedHashMap<>();
    for (MotorParameters.Kind kind : MotorParameters.Kind.values()) {
      kinds.put(kind.key(), kind);
    }
    return new MotorParameters(
        s.optionalChoice("kind", kinds).orElse(m.kind()),
        number(s, "stroke_90_deg_s", 1, 300, "s", m.strokeSeconds()),
        number(s, "run_up_s", 0.005, 2, "s", m.runUpSeconds()),
        number(s, "brake_s", 0.005, 2, "s", m.brakeSeconds()),
        number(s, "coast_deg_per_s2", 0, 500, "°/s²", m.coastDegreesPerSecondSquared()),
        number(s, "slip_ratio", 0, 1, "", m.slip()),
        number(s, "stall_torque_ratio", 0.1, 10, "× rated", m.stallTorque()),
        number(s, "voltage_ratio", 0, 1.5, "× nominal", m.voltageRatio()),
        s.optionalChoice("leads", SWAPPED).orElse(m.leadsSwapped()));
  }

  private static SupplyParameters supply(TomlSection s, SupplyParameters p) {
    return new SupplyParameters(
        number(s, "rated_V", 5, 500, "V", p.ratedVolts()),
        number(s, "lead_ohm", 0, 50, "Ω", p.leadOhms()),
        number(s, "idle_A", 0, 10, "A", p.idleAmperes()),
        number(s, "run_A", 0.01, 50, "A", p.runAmperes()),
        number(s, "stall_ratio", 1, 10, "× run_A", p.stallRatio()));
  }

  private static LoadParameters load(TomlSection s, LoadParameters l) {
    return new LoadParameters(
        number(s, "running_torque_ratio", 0, 5, "× rated", l.runningTorque()),
        number(s, "seat_torque_ratio", 0, 5, "× rated", l.seatTorque()),
        number(s, "seat_deg", 0.5, 45, "°", l.seatDegrees()),
        number(s, "closing_ratio", 0, 1, "", l.closingShare()));
  }

  private static MechanicsParameters mechanics(TomlSection s, MechanicsParameters m) {
    return new MechanicsParameters(
        travel(s, m.travel()),
        play(s, m.play()),
        linkage(s, m.linkage()),
        friction(s, m.friction()),
        number(s, "start_pct", 0, 100, "% of span", m.startPercent()));
  }

  private static TravelParameters travel(TomlSection s, TravelParameters t) {
    double span = t.spanDegrees();
    return new TravelParameters(
        span,
        number(s, "closed_stop_deg", -45, 0, "°", t.closedStopDegrees()),
        number(s, "open_stop_deg", span - 45, span + 45, "°", t.openStopDegrees()));
  }

  private static PlayParameters play(TomlSection s, PlayParameters p) {
    return new PlayParameters(
        number(s, "gear_play_pct", 0, 20, "% of span", p.gearPercent()),
        number(s, "sensor_play_pct", 0, 20, "% of span", p.sensorPercent()),
        number(s, "coupling_play_pct", 0, 20, "% of span", p.couplingPercent()));
  }

  private static LinkageParameters linkage(TomlSection s, LinkageParameters l) {
    return new LinkageParameters(
        bow(s, "linkage_bend_pct", 10, "linkage_shape", l.bend()),
        number(s, "quadrant_deg", -180, 180, "°", l.quadrantDegrees()));
  }

  private static Bow bow(TomlSection s, String size, double most, String shape, Bow b) {
    Map<String, Bow.Shape> shapes = new LinkedHashMap<>();
    for (Bow.Shape each : Bow.Shape.values()) {
      shapes.put(each.key(), each);
    }
    return new Bow(
        number(s, size, -most, most, "% of span", b.percent()),
        s.optionalChoice(shape, shapes).orElse(b.shape()));
  }

  private static FrictionParameters friction(TomlSection s, FrictionParameters f) {
    return new FrictionParameters(
        number(s, "stick_pct", 0, 20, "% of span", f.stickPercent()),
        number(s, "slide_pct", 0, 20, "% of span", f.slidePercent()),
        number(s, "slip_overshoot_ratio", 0, 1, "", f.overshoot()),
        number(s, "friction_from_pct", -50, 150, "% of span", f.fromPercent()),
        number(s, "friction_to_pct", -50, 150, "% of span", f.toPercent()));
  }

  private static SensorParameters sensor(TomlSection s, SensorParameters p) {
    Map<String, SensorParameters.Place> places = new LinkedHashMap<>();
    for (SensorParameters.Place place : SensorParameters.Place.values()) {
      places.put(place.key(), place);
    }
    SensorParameters.Worn worn = p.worn();
    return new SensorParameters(
        s.optionalChoice("sits_on", places).orElse(p.place()),
        number(s, "zero_pct", -20, 20, "% of span", p.zeroPercent()),
        number(s, "span_pct", -20, 20, "%", p.spanPercent()),
        number(s, "bow_pct", -20, 20, "% of span", p.bowPercent()),
        deadSpots(s),
        number(s, "noise_pct", 0, 10, "% of span", p.noisePercent()),
        new SensorParameters.Worn(
            number(s, "worn_from_pct", -10, 110, "% of span", worn.fromPercent()),
            number(s, "worn_to_pct", -10, 110, "% of span", worn.toPercent()),
            number(s, "worn_noise_pct", 0, 10, "% of span", worn.noisePercent())));
  }

  private static List<SensorParameters.DeadSpot> deadSpots(TomlSection s) {
    List<SensorParameters.DeadSpot> spots = new ArrayList<>();
    double from = number(s, "dead_spot_from_pct", -10, 110, "% of span", 0);
    double to = number(s, "dead_spot_to_pct", -10, 110, "% of span", 0);
    spots.add(new SensorParameters.DeadSpot(from, to));
    if (s.has("dead_spot")) {
      for (TomlSection each : s.sections("dead_spot")) {
        double begins = each.number("from_pct", -10, 110, "% of span");
        double ends = each.number("to_pct", -10, 110, "% of span");
        each.noOtherKeys();
        if (begins <= ends) {
          spots.add(new SensorParameters.DeadSpot(begins, ends));
        } else if (each.has("to_pct")) {
          each.mistake("to_pct", "must not be below from_pct");
        }
      }
    }
    return spots;
  }

  private static TransmitterParameters transmitter(TomlSection s, TransmitterParameters t) {
    return new TransmitterParameters(
        t.range(),
        number(s, "lag_s", 0.001, 10, "s", t.lagSeconds()),
        s.integer("resolution_bits", 6, 24, t.bits()),
        number(s, "lowest_mA", 0, 25, "mA", t.lowestMilliamps()),
        number(s, "highest_mA", 0, 25, "mA", t.highestMilliamps()),
        number(s, "zero_pct", -20, 20, "% of span", t.zeroPercent()),
        number(s, "span_pct", -20, 20, "%", t.spanPercent()),
        bow(s, "bow_pct", 20, "bow_shape", t.bow()));
  }

  private static InputParameters input(TomlSection s, InputParameters i) {
    return new InputParameters(
        number(s, "compliance_V", 1, 60, "V", i.complianceVolts()),
        number(s, "loop_ohm", 1, 100_000, "Ω", i.loopOhms()),
        number(s, "ground_mA", -5, 5, "mA", i.groundMilliamps()),
        number(s, "ground_motor_mA", -5, 5, "mA", i.groundMotorMilliamps()),
        number(s, "hum_mA", 0, 5, "mA", i.humMilliamps()),
        number(s, "hum_Hz", 1, 400, "Hz", i.humHertz()),
        number(s, "noise_mA", 0, 5, "mA", i.noiseMilliamps()));
  }

  private static ControlParameters control(TomlSection s, ControlParameters c) {
    return new ControlParameters(
        s.optionalChoice("action", actions(c)).orElse(c.signal()),
        number(s, "start_pct", 0.02, 20, "% of span", c.startPercent()),
        number(s, "stop_pct", 0, 20, "% of span", c.stopPercent()),
        number(s, "period_s", 0.001, 1, "s", c.periodSeconds()),
        number(s, "filter_s", 0.001, 5, "s", c.filterSeconds()),
        number(s, "relay_s", 0, 0.5, "s", c.relaySeconds()),
        number(s, "off_time_s", 0, 10, "s", c.offSeconds()),
        c.characteristic());
  }

  /** What the unit does with more current, in the order in which messages name it. */
  static Map<String, SignalRange> actions(ControlParameters c) {
    SignalRange direct = c.signal().spanMilliamps() > 0.0 ? c.signal() : c.signal().reversed();
    Map<String, SignalRange> actions = new LinkedHashMap<>();
    actions.put("direct", direct);
    actions.put("reverse", direct.reversed());
    return actions;
  }

  private static LossParameters loss(TomlSection s, LossParameters l) {
    Map<String, LossParameters.Action> actions = new LinkedHashMap<>();
    actions.put("close", LossParameters.Action.CLOSE);
    actions.put("open", LossParameters.Action.OPEN);
    actions.put("stay", LossParameters.Action.STAY);
    LossParameters.Action action = s.optionalChoice("action", actions).orElse(l.action());
    return new LossParameters(
        number(s, "low_mA", 0, 25, "mA", l.lowMilliamps()),
        number(s, "high_mA", 0, 40, "mA", l.highMilliamps()),
        number(s, "return_mA", 0, 2, "mA", l.returnMilliamps()),
        number(s, "open_mA", 0, 25, "mA", l.openMilliamps()),
        number(s, "delay_s", 0, 60, "s", l.delaySeconds()),
        action,
        s.optionalChoice("open_loop_action", actions).orElse(action));
  }

  private static CamParameters cams(TomlSection s, CamParameters c) {
    return new CamParameters(
        number(s, "closed_deg", -45, 400, "°", c.closedDegrees()),
        number(s, "open_deg", -45, 400, "°", c.openDegrees()),
        number(s, "closed_auxiliary_deg", -45, 400, "°", c.closedAuxiliaryDegrees()),
        number(s, "open_auxiliary_deg", -45, 400, "°", c.openAuxiliaryDegrees()),
        number(s, "differential_deg", 0, 20, "°", c.differentialDegrees()),
        number(s, "bounce_s", 0, 0.1, "s", c.bounceSeconds()));
  }

  private static HeatParameters heat(TomlSection s, HeatParameters h) {
    return new HeatParameters(
        number(s, "time_constant_s", 10, 7200, "s", h.timeConstantSeconds()),
        number(s, "run_rise_K", 0, 300, "K", h.runRiseKelvin()),
        number(s, "ambient_C", -40, 80, "°C", h.ambientCelsius()),
        number(s, "trip_C", 60, 200, "°C", h.tripCelsius()),
        number(s, "reset_K", 1, 60, "K", h.resetKelvin()),
        number(s, "drift_pct_per_K", -0.5, 0.5, "% of span/K", h.driftPercentPerKelvin()));
  }

  private static CalibrationParameters calibration(TomlSection s, CalibrationParameters c) {
    Map<String, CalibrationParameters.By> who = new LinkedHashMap<>();
    for (CalibrationParameters.By by : CalibrationParameters.By.values()) {
      who.put(by.key(), by);
    }
    CalibrationParameters.By by = s.optionalChoice("by", who).orElse(c.by());
    OptionalDouble zero = s.optionalNumber("zero_deg", -45, 400, "°");
    OptionalDouble full = s.optionalNumber("full_deg", -45, 400, "°");
    if (by == CalibrationParameters.By.UNIT && (zero.isPresent() || full.isPresent())) {
      s.mistake("by", "a unit that calibrates itself finds zero_deg and full_deg; leave them out");
    }
    return new CalibrationParameters(
        by,
        zero.orElse(c.zeroDegrees()),
        full.orElse(c.fullDegrees()),
        number(s, "back_off_deg", 0, 5, "°", c.backOffDegrees()));
  }
}
