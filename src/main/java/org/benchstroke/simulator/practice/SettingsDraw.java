package org.benchstroke.simulator.practice;

import java.nio.file.Path;
import java.util.stream.DoubleStream;
import org.benchstroke.core.model.ModelParameters;
import org.benchstroke.core.model.Noise;
import org.benchstroke.core.model.UnitModel;
import org.benchstroke.core.toml.FileMistakes;
import org.benchstroke.core.toml.TomlDocument;
import org.benchstroke.simulator.Simulation;
import org.benchstroke.unit.UnitType;
import org.benchstroke.unit.UnitTypeReader;

/**
 * Draws sound units whose controllers are set in many ways, to count how well a fit finds their
 * settings. All ranges are our own choices (common practice, no source), fixed before any fit was
 * tuned on the units. Stateless.
 */
public final class SettingsDraw {
  private static final int FEW = 40;
  private static final int MANY = 600;
  private static final double APPROACH_PERCENT = 8.0;

  /** h_off − coast as a share of h_on. */
  private static final double LEAST_SHARE = -0.6;

  /** The most of h_off, × h_on. */
  private static final double MOST_STOP = 0.9;

  private SettingsDraw() {}

  /**
   * A unit with its hidden settings.
   *
   * @param simulation the unit
   * @param unitTypeText the text of its unit type's file
   * @param unitType what that says
   * @param startPercent h_on as it is set, %
   * @param leadPercent h_off − coast: how far before its setpoint it comes to rest, the middle of
   *     many approaches without noise from either side, known to some 0.2 % of the way of one look,
   *     %
   */
  public record Unit(
      Simulation simulation,
      String unitTypeText,
      UnitType unitType,
      double startPercent,
      double leadPercent) {}

  /**
   * A unit.
   *
   * @param unitTypeFile the file of the 15 s unit of the demo data
   * @throws IllegalStateException if that file can't be read
   */
  public static Unit unit(long seed, Path unitTypeFile) {
    return unit(seed, unitTypeFile, 8.0, 30.0);
  }

  /**
   * A unit whose stroke time is within a range.
   *
   * @param least in s, 3 or more
   * @param most in s, 60 or less
   */
  public static Unit unit(long seed, Path unitTypeFile, double least, double most) {
    UnitDraft d = new UnitDraft(seed * 15_485_863L + 11L);
    double stroke = Math.rint(d.between(least, most));
    double start = 0.3 * Math.pow(2.0 / 0.3, d.between(0.0, 1.0));
    double share = d.between(LEAST_SHARE, 0.7);
    likeAnyOther(d, stroke);
    d.set("control.start_pct", start);
    d.set("control.stop_pct", 0.0);
    double coast =
        -DoubleStream.of(leads(read(unitTypeFile, d, seed).parameters(), FEW))
            .average()
            .orElseThrow();
    if (coast + share * start > MOST_STOP * start) {
      // No controller stops its motor at a larger error than it starts it.
      start = Math.max(start, coast / (MOST_STOP - LEAST_SHARE));
      share = MOST_STOP - coast / start;
      d.set("control.start_pct", start);
    }
    d.set("control.stop_pct", Math.max(0.0, coast + share * start));
    Simulation unit = read(unitTypeFile, d, seed);
    try {
      String text =
          TomlDocument.textOf(unitTypeFile)
              .replaceFirst("stroke_time_s *= *[0-9.]+", "stroke_time_s = " + stroke);
      UnitType type = UnitTypeReader.read(TomlDocument.parse("unit-type.toml", text));
      double isStart = unit.parameters().control().startPercent();
      return new Unit(unit, text, type, isStart, middle(leads(unit.parameters(), MANY)));
    } catch (FileMistakes e) {
      throw new IllegalStateException(e.getMessage(), e);
    }
  }

  private static void likeAnyOther(UnitDraft d, double stroke) {
    d.vary("motor.stroke_90_deg_s", 0.95 * stroke, 1.05 * stroke);
    d.vary("motor.run_up_s", 0.05, 0.15);
    d.vary("motor.brake_s", 0.01, 0.1);
    d.vary("motor.coast_deg_per_s2", 20.0, 60.0);
    d.vary("load.running_torque_ratio", 0.1, 0.3);
    d.vary("mechanics.gear_play_pct", 0.0, 0.5);
    d.vary("mechanics.coupling_play_pct", 0.0, 0.5);
    d.vary("mechanics.start_pct", 10.0, 90.0);
    d.vary("sensor.noise_pct", 0.003, 0.015);
    d.vary("sensor.bow_pct", -0.2, 0.2);
    d.vary("transmitter.zero_pct", -0.3, 0.3);
    d.vary("transmitter.span_pct", -0.3, 0.3);
    d.vary("transmitter.lag_s", 0.03, 0.3);
    d.vary("input.ground_mA", -0.01, 0.01);
    d.vary("input.noise_mA", 0.0, 0.005);
    d.set("control.period_s", 0.01 + 0.01 * d.one(4));
    d.vary("control.filter_s", 0.02, 0.1);
    d.vary("control.relay_s", 0.01, 0.02);
    d.vary("control.off_time_s", 0.2, 0.3);
  }

  private static Simulation read(Path unitType, UnitDraft d, long seed) {
    String type = unitType.getFileName().toString();
    String shows = "A sound unit whose settings are to be found.";
    String text = d.text("A sound unit with hidden settings", shows, seed, seed * 7_919L, type);
    return UnitDraft.read(unitType, text);
  }

  /**
   * The stops of one side lie evenly within the way of one look, w: the middle of the outermost of
   * n is known to w/n, their mean to w/√(12·n) only.
   */
  private static double middle(double[] leads) {
    double middle = 0.0;
    for (int side = 0; side < 2; side++) {
      double least = leads[side];
      double most = leads[side];
      for (int i = side; i < leads.length; i += 2) {
        least = Math.min(least, leads[i]);
        most = Math.max(most, leads[i]);
      }
      middle += 0.25 * (least + most);
    }
    return middle;
  }

  /**
   * After approaches of drawn lengths from both sides, by turns. Even steps would not do: the motor
   * runs for a whole number of the controller's periods, and may keep in step with them.
   */
  private static double[] leads(ModelParameters parameters, int approaches) {
    UnitModel unit = new UnitModel(quiet(parameters), 1);
    unit.motorPower(true);
    Noise places = new Noise(1);
    double[] leads = new double[approaches];
    for (int i = 0; i < approaches; i++) {
      int side = i % 2 == 0 ? 1 : -1;
      double to = 50.0 + side * APPROACH_PERCENT + places.symmetric();
      unit.command(4.0 + 0.16 * to);
      for (int step = 0; step < 1_000 + 250 * (int) parameters.motor().strokeSeconds(); step++) {
        unit.step();
      }
      leads[i] = side * (to - unit.truth().feedbackPercent());
    }
    return leads;
  }

  /** No noise, and no second start however far it overruns. */
  private static ModelParameters quiet(ModelParameters p) {
    return p.with(p.mechanics().startingAt(50.0))
        .with(p.sensor().withNoise(0.0, p.sensor().worn()))
        .with(p.transmitter().withErrors(0.0, 0.0))
        .with(p.input().quiet())
        .with(p.control().withThresholds(6.0, p.control().stopPercent()));
  }
}
