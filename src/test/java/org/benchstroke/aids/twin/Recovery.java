package org.benchstroke.aids.twin;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import java.util.Optional;
import org.benchstroke.acceptance.VirtualBench;
import org.benchstroke.core.model.ModelParameters;
import org.benchstroke.core.model.MotorParameters;
import org.benchstroke.simulator.practice.SettingsDraw;

/** A drawn unit, run through the dead band procedure of the demo data, and its twin. */
public record Recovery(long seed, SettingsDraw.Unit unit, Twin twin) {
  private static final Path TYPE = Path.of("demo-data/unit-types/quarter-turn-15s.toml");
  private static final Path PROCEDURE = Path.of("demo-data/procedures/dead-band.toml");

  /** Runs it; a second or so. */
  public static Recovery of(long seed) {
    return run(seed, SettingsDraw.unit(seed, TYPE), tests(PROCEDURE));
  }

  /** One whose stroke time is 3 to 8 s. */
  public static Recovery fast(long seed) {
    return run(seed, SettingsDraw.unit(seed, TYPE, 3.0, 8.0), tests(PROCEDURE));
  }

  /** One whose stroke time is 30 to 60 s. */
  public static Recovery slow(long seed) {
    return run(seed, SettingsDraw.unit(seed, TYPE, 30.0, 60.0), tests(PROCEDURE));
  }

  /** The same unit with ten cycles in place of two: five times as many stops. */
  public Recovery longer() {
    return run(seed, unit, tests(PROCEDURE).replace("cycles = 2", "cycles = 10"));
  }

  private static Recovery run(long seed, SettingsDraw.Unit unit, String tests) {
    return new Recovery(
        seed,
        unit,
        Twin.of(
            VirtualBench.with(unit.simulation())
                .unitType(text -> unit.unitTypeText())
                .tests(tests)
                .judge()));
  }

  /** The tests of a procedure file. */
  static String tests(Path procedure) {
    try {
      String text = Files.readString(procedure);
      return text.substring(text.indexOf("[[test]]"));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  public Optional<FittedValue> start() {
    return twin.found(Twin.START);
  }

  public Optional<FittedValue> lead() {
    return twin.found(Twin.LEAD);
  }

  /** By how much h_on is off, as a share of it; infinite without a value. */
  public double startError() {
    double is = unit.startPercent();
    return start().map(f -> Math.abs(f.value() - is) / is).orElse(Double.POSITIVE_INFINITY);
  }

  /** By how much h_off − coast is off, as a share of it; infinite without a value. */
  public double leadError() {
    return leadOff() / Math.abs(unit.leadPercent());
  }

  /** By how much h_off − coast is off, % of travel; infinite without a value. */
  public double leadOff() {
    return lead()
        .map(f -> Math.abs(f.value() - unit.leadPercent()))
        .orElse(Double.POSITIVE_INFINITY);
  }

  /** How far it moves between two looks of its controller, % of travel. */
  public double lookPercent() {
    ModelParameters p = unit.simulation().parameters();
    return p.control().periodSeconds() * 100.0 / p.motor().strokeSeconds();
  }

  /** Whether the run holds h_off − coast to a tenth: its U is no more than that. */
  public boolean tellsLead() {
    return lead().filter(f -> f.half() <= 0.1 * Math.abs(unit.leadPercent())).isPresent();
  }

  public boolean startCovered() {
    return start().filter(f -> Math.abs(f.value() - unit.startPercent()) <= f.half()).isPresent();
  }

  public boolean leadCovered() {
    return lead().filter(f -> Math.abs(f.value() - unit.leadPercent()) <= f.half()).isPresent();
  }

  /** What the unit is set to, by the keys of its twin: what else is fitted to its traces. */
  public Map<String, Double> hidden() {
    ModelParameters p = unit.simulation().parameters();
    double load = p.load().runningTorque();
    return Map.of(
        "speed_opening",
        speed(p.motor(), load),
        "speed_closing",
        speed(p.motor(), load * p.load().closingShare()),
        "lag",
        p.transmitter().lagSeconds(),
        "delay",
        p.control().relaySeconds() + 0.5 * p.control().periodSeconds(),
        "play_inside",
        p.mechanics().play().gearPercent());
  }

  /** How far a value of the twin is from what is hidden; infinite without a value. */
  public double off(String key) {
    return twin.found(key)
        .map(f -> Math.abs(f.value() - hidden().get(key)))
        .orElse(Double.POSITIVE_INFINITY);
  }

  public boolean covered(String key) {
    return twin.found(key).filter(f -> off(key) <= f.half()).isPresent();
  }

  /** The steady speed under a load, % of travel in a second. */
  private static double speed(MotorParameters motor, double load) {
    return 100.0 / motor.strokeSeconds() * (1.0 - motor.slip() * load / motor.stallTorque());
  }

  public boolean explained() {
    return twin.misfit().map(Misfit::explained).orElse(false);
  }

  @Override
  public String toString() {
    return "unit "
        + seed
        + ": h_on "
        + unit.startPercent()
        + " found "
        + start()
        + ", h_off - coast "
        + unit.leadPercent()
        + " found "
        + lead()
        + " "
        + twin.misfit()
        + " "
        + twin.words();
  }
}
