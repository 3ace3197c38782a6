package org.benchstroke.aids.diagnosis;

import java.util.Arrays;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import org.benchstroke.core.quantity.Current;
import org.benchstroke.core.quantity.Position;
import org.benchstroke.io.instrument.LimitSwitch;
import org.benchstroke.io.instrument.Role;
import org.benchstroke.judge.AsOrdered;
import org.benchstroke.judge.AsOrdered.Subject;
import org.benchstroke.judge.JudgedRun;
import org.benchstroke.judge.Judgement;
import org.benchstroke.judge.Location;
import org.benchstroke.judge.Measure;
import org.benchstroke.judge.Truth;
import org.benchstroke.judge.Word;
import org.benchstroke.record.Event;
import org.benchstroke.tests.switches.Switches.End;
import org.benchstroke.unit.MeasureKind;
import org.benchstroke.unit.UnitType;

/**
 * The causes that a run's own measures deny: a cause with a measure of its own is none where that
 * measure is nothing within its uncertainty, or less than what matters. One thread.
 */
final class Denials {
  /** Less of an angle is no quadrant, °. */
  private static final double QUADRANT = 0.5;

  /** A switch that trips earlier by less is set as ordered, °. */
  private static final double EARLY = 0.5;

  /** A unit that its switch stops by so much inside is stopped too early, % of travel. */
  private static final double SHORT = 2.0;

  /** A supply that sags by less is none that is too weak, %. */
  private static final double SAG = 4.0;

  private final JudgedRun run;
  private final List<Stand> stands;
  private final Optional<Law> law;
  private final Map<Cause, String> denied = new EnumMap<>(Cause.class);

  private Denials(JudgedRun run, List<Stand> stands, Optional<Law> law) {
    this.law = law;
    this.run = run;
    this.stands = stands;
  }

  /** By what measure each is denied, in words. */
  static Map<Cause, String> of(JudgedRun run, List<Stand> stands, Optional<Law> law) {
    Denials denials = new Denials(run, stands, law);
    denials.ends();
    denials.stem();
    denials.orders();
    denials.loop();
    denials.others();
    return denials.denied;
  }

  /** Zero and span, where neither switch nor stop holds the unit at the ends that they go by. */
  private void ends() {
    if (free(0.0) && !elsewhere(Law::zero)) {
      deny(
          nothing(MeasureKind.ZERO_ERROR, Truth.FEEDBACK, Law.WORTH_SAYING),
          Cause.ZERO_SHIFT,
          Cause.GROUND_OFFSET,
          Cause.INPUT_ZERO);
      if (free(100.0) && !elsewhere(Law::rise)) {
        deny(nothing(MeasureKind.SPAN_ERROR, Truth.FEEDBACK, Law.WORTH_SAYING), Cause.SPAN);
      }
    }
  }

  /**
   * Whether the stands between the ends, which tell a bend from it, show it all the same: then
   * something else holds the unit at its end.
   */
  private boolean elsewhere(Function<Law, Law.Term> term) {
    return law.filter(l -> l.arc().told() && term.apply(l).beyond(Law.WORTH_SAYING)).isPresent();
  }

  /** Whether it came there and no switch of the end is made, as far as they are read. */
  private boolean free(double setpoint) {
    List<Stand> there =
        stands.stream().filter(s -> Math.abs(s.setpointPercent() - setpoint) < 0.1).toList();
    return run.bench().playing(Role.SWITCHES).isPresent()
        && !there.isEmpty()
        && there.stream().noneMatch(s -> s.openMade() || s.closedMade());
  }

  private void stem() {
    deny(nothing(MeasureKind.QUADRANT, Truth.STEM, QUADRANT), Cause.QUADRANT_OFF);
    deny(noSlack(), Cause.SLACK_AFTER_SENSOR, Cause.STICTION);
    Optional<String> stem =
        nothing(MeasureKind.LINEARITY_INDEPENDENT, Truth.STEM, Law.WORTH_SAYING);
    Optional<String> own =
        nothing(MeasureKind.LINEARITY_INDEPENDENT, Truth.FEEDBACK, Law.WORTH_SAYING);
    if (stem.isPresent()) {
      deny(own, Cause.NON_LINEAR_LINKAGE);
    }
  }

  /** Both ways may differ by as much at the feedback: only what the stem adds is slack. */
  private Optional<String> noSlack() {
    List<Measure> stem = lag(Truth.STEM);
    List<Measure> own = lag(Truth.FEEDBACK);
    if (stem.size() != 1 || own.size() != 1) {
      return Optional.empty();
    }
    double more = stem.get(0).value().orElseThrow() - own.get(0).value().orElseThrow();
    double half = Math.hypot(half(stem.get(0)), half(own.get(0)));
    return Math.abs(more) <= Math.max(Law.WORTH_SAYING, half)
        ? Optional.of(stem.get(0).kind().title())
        : Optional.empty();
  }

  /** By means, where it is not the same by passes: slack is no matter of a single one. */
  private List<Measure> lag(Truth truth) {
    List<Measure> means = measures(MeasureKind.HYSTERESIS_PLUS_DEAD_BAND_MEANS, truth);
    return means.isEmpty() ? measures(MeasureKind.HYSTERESIS_PLUS_DEAD_BAND, truth) : means;
  }

  /** What was ordered and is so, in every case that was looked at. */
  private void orders() {
    deny(asOrdered(Subject.ACTION), Cause.REVERSED_ACTION, Cause.MOTOR_AND_SENSOR_OPPOSED);
    deny(asOrdered(Subject.SWITCHES), Cause.AUXILIARY_TRAILS);
    switches();
    deny(asOrdered(Subject.HUNTING), Cause.DEAD_BAND_TOO_SMALL, Cause.NOISE_ON_SIGNAL);
    deny(asOrdered(Subject.SIGNAL_LOSS), Cause.WRONG_FAIL_ACTION);
  }

  /**
   * An end switch that trips too early leaves its auxiliary behind: that is then no fault of the
   * auxiliary's. Where none trips too early, no cam is set short.
   */
  private void switches() {
    List<End> early = Arrays.stream(End.values()).filter(this::early).toList();
    List<AsOrdered> wrong =
        run.orders().stream()
            .filter(o -> o.isOf(Subject.SWITCHES) && o.word() == Word.FAIL)
            .toList();
    if (!wrong.isEmpty()
        && wrong.stream()
            .allMatch(o -> early.stream().anyMatch(e -> e.words().equals(o.which())))) {
      deny(Optional.of("the end switch trips too early"), Cause.AUXILIARY_TRAILS);
    }
    boolean measured =
        Arrays.stream(End.values()).allMatch(e -> switchError(e.outer()).isPresent());
    if (early.isEmpty() && measured) {
      deny(Optional.of(MeasureKind.SWITCH_ERROR.title()), Cause.CAM_SET_SHORT);
    }
  }

  private boolean early(End end) {
    double inwards = end == End.CLOSED ? 1.0 : -1.0;
    boolean measured =
        switchError(end.outer())
            .filter(m -> inwards * m.value().orElseThrow() > Math.max(EARLY, half(m)))
            .isPresent();
    double sent = end == End.CLOSED ? 0.0 : 100.0;
    // Far inside it is made already where the creep to it begins, and has no angle.
    return measured
        || stands.stream()
            .filter(s -> end == End.CLOSED ? s.closedMade() : s.openMade())
            .filter(s -> Math.abs(s.setpointPercent() - 50.0) >= 49.9)
            .anyMatch(s -> inwards * (s.feedbackPercent() - sent) > SHORT);
  }

  private Optional<Measure> switchError(LimitSwitch which) {
    return measures(MeasureKind.SWITCH_ERROR, Truth.STEM).stream()
        .filter(m -> m.place().equals(new Location.OfSwitch(which)))
        .findFirst()
        .or(
            () ->
                measures(MeasureKind.SWITCH_ERROR, Truth.FEEDBACK).stream()
                    .filter(m -> m.place().equals(new Location.OfSwitch(which)))
                    .findFirst());
  }

  private Optional<String> asOrdered(Subject subject) {
    List<AsOrdered> these = run.orders().stream().filter(o -> o.isOf(subject)).toList();
    return !these.isEmpty() && these.stream().allMatch(o -> o.word() == Word.PASS)
        ? Optional.of(subject.words() + " as ordered")
        : Optional.empty();
  }

  private void loop() {
    List<Event.Checked> loops = BenchSigns.loops(run);
    if (!loops.isEmpty() && loops.stream().allMatch(c -> c.outcome().equals("ok"))) {
      deny(
          Optional.of("the loop carries what was set"),
          Cause.LOOP_RESISTANCE,
          Cause.INSTRUMENT_OFF);
    }
    UnitType unit = run.unit();
    Current closed = unit.currentAt(Position.ofPercent(0.0));
    Current open = unit.currentAt(Position.ofPercent(100.0));
    double low = closed.compareTo(open) < 0 ? 0.0 : 100.0;
    if (held(low) && !held(100.0 - low)) {
      deny(Optional.of("it stops short where the current is lowest"), Cause.LOOP_RESISTANCE);
    }
  }

  /** Whether it stands inside that end, further than its error elsewhere makes it. */
  private boolean held(double end) {
    double inwards = end < 50.0 ? 1.0 : -1.0;
    return law.isPresent()
        && stands.stream()
            .filter(s -> inwards * (s.setpointPercent() - end) < 0.1)
            .anyMatch(s -> inwards * (s.errorPercent() - law.get().at(s)) > SHORT);
  }

  private void others() {
    deny(nothing(MeasureKind.SUPPLY_SAG, Truth.METER, SAG), Cause.UNDERVOLTAGE);
    double wide = 1.5 * run.unit().deadBandPercent();
    deny(nothing(MeasureKind.DEAD_BAND, Truth.FEEDBACK, wide), Cause.DEAD_BAND_TOO_LARGE);
  }

  /** In words, if there is such a measure, and each of them is nothing, or too little to matter. */
  private Optional<String> nothing(MeasureKind kind, Truth truth, double least) {
    List<Measure> these = measures(kind, truth);
    boolean all =
        these.stream().allMatch(m -> Math.abs(m.value().orElseThrow()) <= Math.max(least, half(m)));
    return these.isEmpty() || !all ? Optional.empty() : Optional.of(kind.title());
  }

  private List<Measure> measures(MeasureKind kind, Truth truth) {
    return run.judgements().stream()
        .map(Judgement::measure)
        .filter(m -> m.kind() == kind && m.truth() == truth)
        .filter(m -> m.value().isPresent() && m.budget().isPresent())
        .toList();
  }

  private static double half(Measure m) {
    return m.budget().orElseThrow().expand().half();
  }

  private void deny(Optional<String> by, Cause... causes) {
    by.ifPresent(
        words -> {
          for (Cause cause : causes) {
            denied.put(cause, words);
          }
        });
  }
}
