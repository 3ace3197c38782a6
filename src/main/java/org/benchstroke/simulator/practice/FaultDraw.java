package org.benchstroke.simulator.practice;

import java.nio.file.Path;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import org.benchstroke.aids.diagnosis.Cause;
import org.benchstroke.simulator.Simulation;

/**
 * Draws units with a hidden fault: each differs a little from the sound unit in everything, as
 * units of a series do, and in one thing a lot. All ranges are our own choices (common practice, no
 * source), fixed before any diagnosis was tuned on the units. Stateless.
 */
public final class FaultDraw {
  /**
   * What is agreed with the customer beside the limits of the demo data, so that each fault breaks
   * some agreement: lines of the table {@code [limits]}.
   */
  public static final String LIMITS =
      """
      dead_time_s = 0.45
      feedback_noise_pct = 0.05
      seat_lag_pct = 1.2
      dead_band_pct = 1.0
      """;

  /** Links that fail now and then: tables {@code [[fault]]} of a simulation file. */
  public static final String LINK_FAULTS =
      """

      [[fault]]
      on = "position input"
      kind = "drop"
      probability = 0.0003

      [[fault]]
      on = "all"
      kind = "late"
      late_ms = 300
      probability = 0.0003

      [[fault]]
      on = "position input"
      kind = "freeze"
      probability = 0.0003

      [[fault]]
      on = "all"
      kind = "garbage"
      probability = 0.0001
      """;

  private static final double SPAN_DEGREES = 90.0;

  private static final Set<Cause> OF_THE_BENCH =
      Set.of(Cause.WORD_ORDER, Cause.ALIASING, Cause.INSTRUMENT_OFF, Cause.FROZEN_DATA);

  private FaultDraw() {}

  /** The causes that can be drawn, the sound unit first. */
  public static List<Cause> causes() {
    return List.of(Cause.values());
  }

  /** Those of them that are the unit's fault: with the others a sound unit stands on the bench. */
  public static List<Cause> ofTheUnit() {
    return causes().stream().filter(c -> c != Cause.HEALTHY && !OF_THE_BENCH.contains(c)).toList();
  }

  /** In which forms a fault comes, in words; one without a name where all are alike. */
  public static List<String> forms(Cause cause) {
    return switch (cause) {
      case CAM_SET_SHORT -> List.of("with its auxiliary", "the end switch alone");
      case NON_LINEAR_LINKAGE -> List.of("stem, an S", "stem, to one side", "feedback");
      case INSTRUMENT_OFF -> List.of("source", "loop meter");
      default -> List.of("");
    };
  }

  /** Whether both make the same unit of a sound one: nothing on a bench parts them. */
  static boolean sameUnit(Cause one, Cause other) {
    return one == other
        || Set.of(Cause.GROUND_OFFSET, Cause.INPUT_ZERO).containsAll(List.of(one, other));
  }

  /** Whether a fault of that cause has a size: a swapped lead has none. */
  public static boolean graded(Cause cause) {
    return !ranges(cause).isEmpty();
  }

  /** What sizes a fault has, by key: the edges below | barely | moderate | clear | large | most. */
  public static Map<String, String> ranges(Cause cause) {
    Map<String, String> all = new LinkedHashMap<>();
    for (int form = 0; form < forms(cause).size(); form++) {
      all.putAll(alone(new Fault(cause, form, Severity.CLEAR)).ranges());
    }
    return all;
  }

  private static UnitDraft alone(Fault fault) {
    UnitDraft draft = new UnitDraft(1);
    fault(draft, fault);
    return draft;
  }

  /** Whether a unit can have both: neither undoes what the other has set. */
  public static boolean together(Fault one, Fault other) {
    return one.cause() != other.cause()
        && Collections.disjoint(alone(one).keys(), alone(other).keys());
  }

  private static String drawnAs(Fault fault) {
    boolean input = sameUnit(fault.cause(), Cause.GROUND_OFFSET);
    return (input ? Cause.GROUND_OFFSET : fault.cause()).name();
  }

  /**
   * The text of a simulation file with such faults.
   *
   * @param unitType how the file names the unit type, the 15 s unit of the demo data
   */
  public static String text(List<Fault> faults, long seed, String unitType) {
    String key = String.join("+", faults.stream().map(FaultDraw::drawnAs).toList());
    UnitDraft draft = new UnitDraft(seed * 7_919L + key.hashCode());
    likeAnyOther(draft);
    faults.forEach(f -> fault(draft, f));
    return draft.text(
        "What is hidden: "
            + String.join(" and ", faults.stream().map(f -> f.cause().title()).toList()),
        "A unit that was drawn to find out what is wrong with it.",
        seed,
        seed * 104_729L,
        unitType);
  }

  /**
   * The unit.
   *
   * @param unitType the file of the 15 s unit of the demo data
   * @param more tables for its file: faults of the links
   * @throws IllegalStateException if that file can't be read
   */
  public static Simulation unit(List<Fault> faults, long seed, Path unitType, String more) {
    String text = text(faults, seed, unitType.getFileName().toString());
    return UnitDraft.read(unitType, text + more);
  }

  /** Likewise with one fault, in the form that comes with the seed. */
  public static Simulation unit(
      Cause cause, Severity severity, long seed, Path unitType, String more) {
    return unit(List.of(Fault.of(cause, severity, seed)), seed, unitType, more);
  }

  /** What differs from one sound unit to the next. */
  private static void likeAnyOther(UnitDraft d) {
    d.vary("motor.stroke_90_deg_s", 14.4, 15.6);
    d.vary("motor.run_up_s", 0.05, 0.12);
    d.vary("motor.brake_s", 0.015, 0.03);
    d.vary("motor.voltage_ratio", 0.98, 1.02);
    d.vary("load.running_torque_ratio", 0.1, 0.3);
    d.vary("load.seat_torque_ratio", 0.5, 0.8);
    d.vary("mechanics.gear_play_pct", 0.0, 0.1);
    d.vary("mechanics.coupling_play_pct", 0.0, 0.1);
    d.vary("mechanics.linkage_bend_pct", -0.1, 0.1);
    d.vary("mechanics.quadrant_deg", -0.15, 0.15);
    d.vary("mechanics.stick_pct", 0.02, 0.08);
    d.vary("mechanics.slide_pct", 0.0, 0.02);
    d.vary("mechanics.start_pct", 10.0, 90.0);
    d.vary("sensor.noise_pct", 0.005, 0.02);
    d.vary("sensor.bow_pct", -0.1, 0.1);
    d.vary("transmitter.zero_pct", -0.1, 0.1);
    d.vary("transmitter.span_pct", -0.1, 0.1);
    d.vary("transmitter.lag_s", 0.03, 0.1);
    d.vary("input.ground_mA", -0.008, 0.008);
    d.vary("input.noise_mA", 0.0, 0.02);
    d.vary("control.start_pct", 0.48, 0.55);
    d.vary("control.stop_pct", 0.34, 0.42);
    d.vary("switches.closed_deg", -0.6, -0.3);
    d.vary("switches.open_deg", SPAN_DEGREES + 0.3, SPAN_DEGREES + 0.6);
    d.vary("switches.closed_auxiliary_deg", 1.7, 2.3);
    d.vary("switches.open_auxiliary_deg", 87.7, 88.3);
    d.vary("switches.differential_deg", 0.7, 1.5);
  }

  private static void fault(UnitDraft d, Fault fault) {
    d.now(fault.severity());
    switch (fault.cause()) {
      case HEALTHY -> {}
      case BACKLASH_BEFORE_SENSOR ->
          d.grow("mechanics.gear_play_pct", 0.4, 0.8, 1.5, 2.5, 5.0, 15.0);
      case SLACK_AFTER_SENSOR ->
          d.grow("mechanics.coupling_play_pct", 0.5, 0.9, 1.1, 1.8, 4.0, 12.0);
      case STICTION -> stick(d, d.size("mechanics.stick_pct", 0.6, 1.0, 1.2, 1.8, 4.0, 12.0));
      case STICKY_SEAT -> stickySeat(d);
      case ZERO_SHIFT -> d.growEitherWay("transmitter.zero_pct", 0.5, 1.0, 1.4, 2.5, 5.0, 15.0);
      case SPAN -> d.growEitherWay("transmitter.span_pct", 0.5, 1.0, 1.4, 2.5, 5.0, 15.0);
      case REVERSED_ACTION -> d.word("control.action", "reverse");
      case MOTOR_AND_SENSOR_OPPOSED -> d.word("motor.leads", "swapped");
      case CAM_SET_SHORT -> camShort(d, fault.form() == 0);
      case QUADRANT_OFF ->
          d.growEitherWay("mechanics.quadrant_deg", 0.6, 1.2, 1.8, 4.0, 15.0, 45.0);
      case AUXILIARY_TRAILS -> auxiliary(d);
      case DEAD_BAND_TOO_SMALL -> narrow(d);
      case LONG_COAST -> coast(d);
      case NOISE_ON_SIGNAL -> d.grow("input.noise_mA", 0.2, 0.35, 0.5, 0.7, 1.2, 3.6);
      case STOP_BEFORE_SWITCH -> stopShort(d);
      case THERMAL_TRIP -> trip(d);
      case UNDERVOLTAGE -> undervoltage(d);
      case LOOP_RESISTANCE ->
          d.grow("input.loop_ohm", 1190.0, 1203.0, 1225.0, 1300.0, 2000.0, 6000.0);
      case THERMAL_DRIFT -> drift(d);
      case WORD_ORDER -> wronglyWritten(d);
      case ALIASING ->
          d.atTop("sample_period_ms", d.size("sample_period_ms", 130, 160, 250, 400, 1000, 3000));
      case INSTRUMENT_OFF -> instrumentOff(d, fault.form() == 0);
      case FROZEN_DATA -> freeze(d);
      case GROUND_OFFSET, INPUT_ZERO ->
          d.growEitherWay("input.ground_mA", 0.08, 0.17, 0.22, 0.35, 0.8, 2.4);
      case DEAD_SPOT -> deadSpot(d);
      case WORN_SENSOR -> worn(d);
      case NON_LINEAR_LINKAGE -> bend(d, fault.form());
      case WRONG_FAIL_ACTION -> wrongFail(d);
      case DEAD_BAND_TOO_LARGE -> d.grow("control.start_pct", 0.8, 1.2, 1.5, 2.0, 2.5, 7.5);
    }
  }

  private static void stickySeat(UnitDraft d) {
    stick(d, d.size("mechanics.stick_pct", 0.8, 1.6, 2.0, 2.5, 4.0, 12.0));
    d.vary("mechanics.friction_to_pct", 2.5, 5.0);
  }

  /** A dead band that is smaller than the coast needs. */
  private static void narrow(UnitDraft d) {
    d.vary("motor.brake_s", 0.08, 0.12);
    d.vary("motor.coast_deg_per_s2", 15.0, 25.0);
    d.set(
        "control.start_pct",
        0.4 - d.size("below 0.4: control.start_pct", 0.02, 0.04, 0.1, 0.16, 0.3, 0.38));
    d.vary("control.stop_pct", 0.03, 0.08);
  }

  private static void trip(UnitDraft d) {
    d.vary("heat.time_constant_s", 50.0, 90.0);
    d.grow("heat.run_rise_K", 100.0, 130.0, 160.0, 210.0, 300.0, 300.0);
    d.vary("heat.trip_C", 85.0, 95.0);
    d.vary("heat.reset_K", 15.0, 30.0);
  }

  /** Over a long lead. */
  private static void undervoltage(UnitDraft d) {
    d.word("motor.kind", "dc");
    d.grow("supply.lead_ohm", 0.8, 1.6, 2.0, 2.6, 4.0, 12.0);
    d.vary("load.running_torque_ratio", 0.2, 0.35);
    d.vary("load.seat_torque_ratio", 0.6, 0.9);
  }

  private static void drift(UnitDraft d) {
    d.vary("heat.time_constant_s", 600.0, 1200.0);
    d.vary("heat.run_rise_K", 80.0, 100.0);
    d.set(
        "heat.drift_pct_per_K",
        d.sign() * d.size("heat.drift_pct_per_K", 0.015, 0.03, 0.05, 0.08, 0.15, 0.45));
  }

  private static void deadSpot(UnitDraft d) {
    double from = d.between(12.0, 85.0);
    d.set("sensor.dead_spot_from_pct", from);
    d.set(
        "sensor.dead_spot_to_pct",
        from + d.size("width: sensor.dead_spot", 0.35, 0.7, 1.2, 2.0, 4.0, 12.0));
  }

  private static void worn(UnitDraft d) {
    double from = d.between(5.0, 85.0);
    d.set("sensor.worn_from_pct", from);
    d.set("sensor.worn_to_pct", from + d.between(8.0, 14.0));
    d.grow("sensor.worn_noise_pct", 0.08, 0.15, 0.25, 0.4, 1.0, 3.0);
  }

  /** Of a sound unit the bench file says wrongly how its position is written in the registers. */
  private static void wronglyWritten(UnitDraft d) {
    List<String> wrong =
        List.of(
            "word_order = \"CDAB\"",
            "word_order = \"BADC\"",
            "word_order = \"DCBA\"",
            "scale = 10",
            "scale = 0.1",
            "scale = 1000");
    d.addTable(instrumentError("position input", "position transmitter", wrong.get(d.one(6))));
  }

  /** Source or loop meter, by a part of the value: at 4 mA and at 20 mA alike in per cent. */
  private static void instrumentOff(UnitDraft d, boolean source) {
    String gain = UnitDraft.plain(d.sign() * d.size("gain_pct", 0.3, 0.6, 0.8, 1.2, 5.0, 15.0));
    d.addTable(
        instrumentError(
            source ? "source" : "loop meter",
            source ? "signal source" : "loop meter",
            "gain_pct = " + gain));
  }

  private static String instrumentError(String on, String role, String key) {
    return String.format(
        Locale.ROOT,
        """
    [[instrument_error]]
    on = "%s"
    role = "%s"
    %s
    """,
        on,
        role,
        key);
  }

  /** The position input, in the strokes. */
  private static void freeze(UnitDraft d) {
    d.addTable(
        String.format(
            Locale.ROOT,
            """
        [[fault]]
        on = "position input"
        kind = "freeze"
        from_s = %s
        for_s = %s
        """,
            UnitDraft.plain(d.between(40.0, 90.0)),
            UnitDraft.plain(d.size("for_s", 2.0, 4.0, 8.0, 20.0, 120.0, 360.0))));
  }

  private static void stick(UnitDraft d, double stick) {
    d.set("mechanics.stick_pct", stick);
    d.set("mechanics.slide_pct", stick * d.between(0.1, 0.3));
  }

  /** At either end, by a part of the travel. */
  private static void camShort(UnitDraft d, boolean auxiliary) {
    double degrees =
        SPAN_DEGREES
            / 100.0
            * d.size("short by, % of travel: switches", 0.6, 1.2, 2.5, 5.0, 15.0, 40.0);
    boolean open = d.sign() > 0;
    d.set(
        open ? "switches.open_deg" : "switches.closed_deg",
        open ? SPAN_DEGREES - degrees : degrees);
    if (auxiliary) {
      d.set(
          open ? "switches.open_auxiliary_deg" : "switches.closed_auxiliary_deg",
          open ? SPAN_DEGREES - degrees - 2.0 : degrees + 2.0);
    }
  }

  /** Of the linkage to the stem, or of what moves the transmitter. */
  private static void bend(UnitDraft d, int form) {
    boolean stem = form < 2;
    String size = stem ? "mechanics.linkage_bend_pct" : "transmitter.bow_pct";
    d.growEitherWay(size, 0.5, 1.0, 1.3, 2.0, 5.0, 10.0);
    List<String> shapes = List.of("s", "arc", "parabola", "corner");
    int shape = form == 0 ? 0 : form == 1 ? 1 + d.one(3) : d.one(4);
    d.word(stem ? "mechanics.linkage_shape" : "transmitter.bow_shape", shapes.get(shape));
  }

  /** The open stop is met before the switch, whose cam was set as ordered. */
  private static void stopShort(UnitDraft d) {
    double inside =
        d.size("before its switch, °: mechanics.open_stop_deg", 0.2, 0.5, 1.5, 4.0, 12.0, 36.0);
    d.set("switches.open_deg", SPAN_DEGREES + 0.4);
    d.set("mechanics.open_stop_deg", SPAN_DEGREES + 0.4 - inside);
    d.vary("mechanics.start_pct", 10.0, 50.0); // not beyond the stop
  }

  private static void auxiliary(UnitDraft d) {
    double beyond = d.size("beyond its end switch, °: switches", 0.05, 0.15, 0.4, 0.8, 2.0, 6.0);
    if (d.sign() > 0) {
      d.set("switches.open_deg", SPAN_DEGREES + 0.4);
      d.set("switches.open_auxiliary_deg", SPAN_DEGREES + 0.4 + beyond);
    } else {
      d.set("switches.closed_deg", -0.4);
      d.set("switches.closed_auxiliary_deg", -0.4 - beyond);
    }
  }

  /** A weak brake; the dead band was widened until it no longer hunted. */
  private static void coast(UnitDraft d) {
    d.grow("motor.brake_s", 0.1, 0.17, 0.2, 0.25, 0.4, 1.2);
    d.vary("motor.coast_deg_per_s2", 10.0, 13.0);
    d.grow("control.start_pct", 0.9, 1.2, 1.5, 2.0, 2.5, 7.5);
  }

  private static void wrongFail(UnitDraft d) {
    switch (d.one(3)) {
      case 0 -> d.word("loss.action", "stay");
      case 1 -> d.word("loss.action", "open");
      default -> {
        d.word("loss.action", "close");
        d.word("loss.open_loop_action", "stay");
      }
    }
  }
}
