package org.benchstroke.judge;

import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.stream.Stream;
import org.benchstroke.bench.BenchFile;
import org.benchstroke.bench.InstrumentBounds;
import org.benchstroke.bench.InstrumentSpec;
import org.benchstroke.bench.SetpointDigits;
import org.benchstroke.core.analysis.ClockSteps;
import org.benchstroke.core.analysis.Conversion;
import org.benchstroke.core.analysis.Direction;
import org.benchstroke.core.analysis.PositionNoise;
import org.benchstroke.core.analysis.RestNoise;
import org.benchstroke.core.analysis.Trace;
import org.benchstroke.core.quantity.Position;
import org.benchstroke.io.instrument.Role;
import org.benchstroke.record.Event;
import org.benchstroke.record.RunRecord;
import org.benchstroke.unit.UnitType;

/**
 * What every test of a record is judged with.
 *
 * @param bench the bench, as the record holds it; what it states no step of has the one that was
 *     seen
 * @param unit the unit type, as the record holds it
 * @param record the record
 * @param logged whether the record is of a trace that was logged elsewhere
 * @param conversion how often the position input gets a new value where that is more seldom than it
 *     is read, s
 * @param day the day of the run by UTC; empty where the record is of one whose day is not known
 * @param noises how neighbouring readings at rest go together, learnt from all rests of the record
 * @param creeps how far the position may still go after it was read, by the side of the approach, %
 * @param scatter how the unit's place of rest scatters, by each truth; unknown where none is held
 */
public record JudgedBench(
    BenchFile bench,
    UnitType unit,
    RunRecord record,
    boolean logged,
    OptionalDouble conversion,
    Optional<LocalDate> day,
    Map<Truth, RestNoise> noises,
    Map<Truth, Map<Direction, Double>> creeps,
    Map<Truth, Scatter> scatter) {
  /** Why a readback proves nothing. */
  public static final String ONE_BOX = "source and readback are one box, which hides its own error";

  /** So that the arithmetic of a last bit makes no difference. */
  private static final double SAME_PERCENT = 1.0e-6;

  public JudgedBench {
    scatter = Map.copyOf(scatter);
  }

  public static JudgedBench of(BenchFile bench, UnitType unit, RunRecord record) {
    List<Event.Imported> imported = record.events(Event.Imported.class).toList();
    boolean logged = imported.stream().anyMatch(i -> i.what().equals("trace"));
    Instant opened = record.entries().get(0).utc();
    Optional<LocalDate> day =
        imported.stream().allMatch(Event.Imported::dated)
            ? Optional.of(LocalDate.ofInstant(opened, ZoneOffset.UTC))
            : Optional.empty();
    BenchFile seen = StepSeen.on(Ambient.bench(bench, record), unit, record);
    Samples samples = new Samples(seen, unit);
    OptionalDouble conversion =
        imported.isEmpty() || logged
            ? Conversion.of(samples.position(Lines.of(record)))
            : OptionalDouble.empty();
    Map<Truth, RestNoise> noises = Rests.noises(samples, record);
    Map<Truth, Map<Direction, Double>> creeps =
        Rests.creeps(samples, record, stemStepPercent(seen, unit));
    return new JudgedBench(seen, unit, record, logged, conversion, day, noises, creeps, Map.of());
  }

  private static double stemStepPercent(BenchFile bench, UnitType unit) {
    return bench
        .playing(Role.ANGLE_REFERENCE)
        .map(spec -> spec.channels().get(Role.ANGLE_REFERENCE))
        .map(channel -> channel.resolution() * unit.percentPer(channel))
        .orElse(0.0);
  }

  /** The same, knowing what the tests tell of the unit's scatter. */
  public JudgedBench knowing(List<TestJudge> judges) {
    Map<Truth, Scatter> known = new EnumMap<>(Truth.class);
    for (Truth truth : List.of(Truth.FEEDBACK, Truth.STEM)) {
      List<List<Double>> alike =
          judges.stream()
              .flatMap(judge -> judge.alike().getOrDefault(truth, List.of()).stream())
              .toList();
      known.put(truth, Scatter.of(alike, truth, unit));
    }
    return new JudgedBench(bench, unit, record, logged, conversion, day, noises, creeps, known);
  }

  /** What the readings at rest of tests speak of: of the unit if its scatter is known. */
  Scope scope(List<TestResult> results) {
    return Stream.of(Truth.FEEDBACK, Truth.STEM)
            .filter(truth -> results.stream().anyMatch(r -> !r.rests(truth).isEmpty()))
            .allMatch(truth -> budget(truth).scope() == Scope.UNIT)
        ? Scope.UNIT
        : Scope.READINGS;
  }

  public Samples samples() {
    return new Samples(bench, unit, conversion);
  }

  /** Whether others recorded it, by a plan of their own. */
  public boolean recordedElsewhere() {
    return record.events(Event.Imported.class).findAny().isPresent();
  }

  /** Whether a person read it, point by point; a trace was logged, whatever the bench file says. */
  public boolean byEye(Role role) {
    return !logged && bench.playing(role).map(InstrumentSpec::typedIn).orElse(false);
  }

  /** By how much the instrument in a role may be wrong on the day of the run. */
  public Optional<InstrumentBounds> bounds(Role role) {
    return InstrumentBounds.of(bench, role, day);
  }

  /** Where the clock of a logged trace was set while it ran; a run's own clock never is. */
  public Optional<String> clockStep(Trace position, PositionNoise noise) {
    return logged ? ClockSteps.in(position, noise) : Optional.empty();
  }

  /** How neighbouring readings at rest go together. */
  public RestNoise noise(Truth truth) {
    return noises.getOrDefault(truth, RestNoise.INDEPENDENT);
  }

  /** The noise of one reading of the position as it usually is at rest, rounding included, %. */
  public double noiseAtRestPercent() {
    double usual = noise(Truth.FEEDBACK).usual(unit.practice().restSamples());
    return new PositionNoise(usual, samples().resolutionPercent()).standard();
  }

  /**
   * The noise of the position, by the window of the last rest that ended a motion; without one by
   * its last samples. Where one of them is no number it is the usual noise at rest.
   */
  public PositionNoise positionNoise(Trace position, List<Event.Rested> rests) {
    return positionNoise(Truth.FEEDBACK, position, rests);
  }

  /** The same of a position that is known by the feedback or by the stem. */
  public PositionNoise positionNoise(Truth truth, Trace position, List<Event.Rested> rests) {
    Trace window = Rests.last(position, rests, unit.practice().restSamples());
    double step =
        truth == Truth.STEM ? stemStepPercent(bench, unit) : samples().resolutionPercent();
    boolean read = window.samples().stream().allMatch(s -> Double.isFinite(s.percent()));
    return read
        ? PositionNoise.seen(window, step, noise(truth))
        : new PositionNoise(noise(truth).usual(unit.practice().restSamples()), step);
  }

  public PositionBudget budget(Truth truth) {
    return new PositionBudget(
        bench,
        unit,
        truth,
        byEye(PositionBudget.meter(truth)),
        day,
        digits(),
        noise(truth),
        creeps.getOrDefault(truth, Map.of()),
        scatter.getOrDefault(truth, Scatter.UNKNOWN));
  }

  /**
   * Where a command really asked the unit to be, % of travel: its setpoint, with the correction of
   * the source's certificate if the bench file states one.
   */
  public double asked(Event.Commanded commanded) {
    return asked(commanded.setpointPercent());
  }

  private double asked(double setpointPercent) {
    Position at = Position.ofPercent(setpointPercent);
    return setpointPercent
        + unit.percentPerMilliampAt(at) * sourceCorrection(unit.currentAt(at).milliamps());
  }

  private double sourceCorrection(double milliamps) {
    return bench
        .playing(Role.SIGNAL_SOURCE)
        .map(spec -> spec.channels().get(Role.SIGNAL_SOURCE))
        .map(channel -> channel.correctionAt(milliamps))
        .orElse(0.0);
  }

  private SetpointDigits digits() {
    return record
        .events(Event.Imported.class)
        .map(i -> new SetpointDigits(i.setpointHalfDigit(), i.setpointUnit()))
        .findFirst()
        .orElse(SetpointDigits.EXACT);
  }

  /**
   * How far what the signal asked for may lie from the point of a test that it stands for, ± % of
   * travel: in a run it is that point; one that others wrote down or measured is known to its last
   * digit and to the accuracy of the source.
   */
  public double setpointWithinPercent(double point) {
    Position at = Position.ofPercent(point);
    double measured =
        record
            .events(Event.Imported.class)
            .filter(Event.Imported::setpointMeasured)
            .findFirst()
            .flatMap(i -> bench.playing(Role.SIGNAL_SOURCE))
            .map(s -> s.channels().get(Role.SIGNAL_SOURCE))
            .map(
                c -> {
                  double milliamps = unit.currentAt(at).milliamps();
                  return c.accuracy().halfWidthAt(milliamps)
                      + Math.abs(c.correctionAt(milliamps))
                      + c.resolution() / 2.0;
                })
            .orElse(0.0);
    double slope = Math.abs(unit.percentPerMilliampAt(at));
    return Math.max(SAME_PERCENT, measured * slope + digits().halfPercent(unit, point));
  }
}
