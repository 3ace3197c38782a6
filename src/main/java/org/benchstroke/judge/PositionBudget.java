package org.benchstroke.judge;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import org.benchstroke.bench.BenchFile;
import org.benchstroke.bench.DisplaySettings;
import org.benchstroke.bench.InstrumentBudget;
import org.benchstroke.bench.SetpointDigits;
import org.benchstroke.core.analysis.Direction;
import org.benchstroke.core.analysis.RestNoise;
import org.benchstroke.core.analysis.RestReading;
import org.benchstroke.core.uncertainty.Budget;
import org.benchstroke.core.uncertainty.Component;
import org.benchstroke.io.instrument.Role;
import org.benchstroke.unit.UnitType;

/**
 * The inputs of the uncertainty of a position error, from the bench's data sheets and the readings,
 * in % of travel: source, meter, rest.
 */
public final class PositionBudget {
  private static final String CREEP = "creep after the reading";

  private final InstrumentBudget instruments;
  private final RestNoise noise;
  private final Map<Direction, Double> creeps;

  /** The scatter of one reading by eye, %, if that is how positions are known. */
  private final OptionalDouble byEyePercent;

  private final Scatter scatter;

  PositionBudget(
      BenchFile bench,
      UnitType unit,
      Truth truth,
      boolean byEye,
      Optional<LocalDate> day,
      SetpointDigits digits,
      RestNoise noise,
      Map<Direction, Double> creeps,
      Scatter scatter) {
    this.noise = noise;
    this.creeps = creeps;
    Role meter = meter(truth);
    this.scatter = scatter;
    this.instruments = new InstrumentBudget(bench, unit, meter, day, digits);
    this.byEyePercent =
        bench
            .playing(meter)
            .filter(spec -> byEye)
            .map(
                spec ->
                    OptionalDouble.of(
                        spec.talk(DisplaySettings.class).orElseThrow().readingScatter()
                            * unit.percentPer(spec.channels().get(meter))))
            .orElse(OptionalDouble.empty());
  }

  static Role meter(Truth truth) {
    return truth == Truth.STEM ? Role.ANGLE_REFERENCE : Role.POSITION_TRANSMITTER;
  }

  public InstrumentBudget instruments() {
    return instruments;
  }

  /**
   * The scatter of the mean over the cycles at one point: how the unit scatters from approach to
   * approach, over the root of their number. Where that was measured, the noise of the readings
   * shows in it; it is never less than what the windows alone give. Where it is stated, the windows
   * add to it; where nobody knows it, they alone are left, and {@link #scope} says so. One reading
   * by eye has no scatter of its own: the one that the bench file states stands for it.
   *
   * @param cycles the readings at the point
   */
  public List<Component> rest(List<RestReading> cycles) {
    int m = cycles.size();
    Component within = byEyePercent.isPresent() ? byEye(m) : within(cycles);
    if (scatter.one().isEmpty()) {
      return List.of(within);
    }
    Component between = scatter.one().get().times(1.0 / Math.sqrt(m));
    if (!scatter.measured()) {
      return List.of(between, within);
    }
    return List.of(between.contribution() >= within.contribution() ? between : within);
  }

  /** Whether the unit's own scatter is in {@link #rest}. */
  public Scope scope() {
    return scatter.scope();
  }

  private Component byEye(int readings) {
    return new Component(
        "reading by eye, scatter as the bench file states it",
        Component.Evaluation.TYPE_B_NORMAL,
        byEyePercent.orElseThrow() / Math.sqrt(readings),
        1.0,
        Double.POSITIVE_INFINITY);
  }

  /** The scatter of the reading of one cycle, by what the windows of all of them show. */
  public Component oneReading(List<RestReading> cycles) {
    Component mean = byEyePercent.isPresent() ? byEye(cycles.size()) : within(cycles);
    return mean.times(Math.sqrt(cycles.size()));
  }

  private Component within(List<RestReading> cycles) {
    double squares = 0.0;
    double degrees = 0.0;
    for (RestReading r : cycles) {
      RestNoise.Known mean = noise.ofMean(r.deviationPercent(), r.samples());
      squares += mean.standard() * mean.standard();
      degrees += mean.degrees();
    }
    return Component.typeA(
        "rest, scatter within the window", Math.sqrt(squares) / cycles.size(), degrees);
  }

  /** All inputs of the error at a point. */
  public List<Component> error(List<RestReading> cycles) {
    RestReading first = cycles.get(0);
    List<Component> components =
        new ArrayList<>(instruments.accuracy(first.setpointPercent(), first.meanPercent()));
    components.addAll(instruments.steps(first.setpointPercent()));
    components.addAll(rest(cycles));
    components.addAll(creep(first.direction()));
    return components;
  }

  /**
   * How far it may still go after such a reading, %; 0 where no creep shows. Nobody knows where in
   * between it ends: U holds the bound itself.
   */
  public double creepPercent(Direction direction) {
    return creeps.getOrDefault(direction, 0.0);
  }

  /** The same as an input; none where no creep shows. */
  public List<Component> creep(Direction direction) {
    return creep(creepPercent(direction));
  }

  /**
   * What a bound of a creep is as an input; that of several readings, which creep alike, together.
   */
  public static List<Component> creep(double beyondPercent) {
    return beyondPercent > 0.0
        ? List.of(Component.rectangular(CREEP, beyondPercent / Budget.COVERAGE, 1.0))
        : List.of();
  }

  /** Inputs that belong to a place, with a factor: for a measure made from several points. */
  public static List<Component> placed(List<Component> components, String place, double factor) {
    return components.stream()
        .map(c -> c.named(c.source() + " at " + place).times(factor))
        .toList();
  }
}
