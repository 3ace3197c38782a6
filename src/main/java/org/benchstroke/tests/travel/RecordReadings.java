package org.benchstroke.tests.travel;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.benchstroke.core.analysis.Direction;
import org.benchstroke.core.analysis.RestReading;
import org.benchstroke.core.analysis.Spread;
import org.benchstroke.core.analysis.Trace;
import org.benchstroke.core.analysis.TraceGuards;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.judge.Chapter;
import org.benchstroke.judge.JudgedBench;
import org.benchstroke.judge.Lines;
import org.benchstroke.judge.Passage;
import org.benchstroke.judge.RestWait;
import org.benchstroke.judge.Samples;
import org.benchstroke.judge.Truth;
import org.benchstroke.record.Event;
import org.benchstroke.record.Leg;
import org.benchstroke.unit.UnitType;

/**
 * Takes the readings at rest of a travel error test out of a record. Where a point did not settle,
 * was not a clean approach, or its samples can't be trusted, there is a reason and no reading.
 */
final class RecordReadings {
  private static final int LEAST_FEEDBACK = 5;
  private static final int LEAST_STEM = 3;
  private static final double SAME_PERCENT = 1.0e-6;
  private static final String NOT_IN_RECORD = "the record holds no reading";

  private final JudgedBench judged;
  private final UnitType unit;
  private final Samples samples;
  private final TravelError spec;
  private final Optional<Chapter> attempt;
  private final Lines lines;

  RecordReadings(JudgedBench judged, TravelError spec, Optional<Chapter> attempt) {
    this.judged = judged;
    this.unit = judged.unit();
    this.samples = judged.samples();
    this.spec = spec;
    this.attempt = attempt;
    this.lines = attempt.map(Chapter::lines).orElse(Lines.NONE);
  }

  /** A wait for rest with what was commanded before it, and the last that was typed after it. */
  private record Wait(
      Event.Rested rested,
      Event.Commanded commanded,
      double changePercent,
      Optional<Event.Sampled> stem) {}

  /** A reading, or why there is none. */
  private record Outcome(Optional<RestReading> reading, String reason) {
    static Outcome none(String reason) {
      return new Outcome(Optional.empty(), reason);
    }
  }

  TravelReadings feedback() {
    return taken(Truth.FEEDBACK, samples.position(lines), LEAST_FEEDBACK);
  }

  /** The positions that a person read, one at each point of rest. */
  TravelReadings feedbackByEye() {
    Trace typed = samples.position(lines);
    return taken(
        Truth.FEEDBACK,
        (place, wait) -> {
          Optional<String> unsound = unsound(place, wait);
          Trace here =
              typed.between(
                  Samples.seconds(wait.rested().fromNanos()),
                  Samples.seconds(wait.rested().toNanos()));
          if (unsound.isPresent() || here.size() != 1) {
            return Outcome.none(unsound.orElse("no position was typed in"));
          }
          return here.saturated(0)
              ? Outcome.none("the position is at the end of the display's range")
              : one(place, wait, here.percent(0));
        },
        others(judged.samples()::position, 1));
  }

  private Outcome one(TravelError.Place place, Wait wait, double percent) {
    return new Outcome(
        Optional.of(
            new RestReading(
                place.setpointPercent(),
                judged.asked(wait.commanded()),
                place.direction(),
                place.cycle(),
                percent,
                0.0,
                1)),
        "");
  }

  TravelReadings stem() {
    return taken(Truth.STEM, samples.stem(lines), LEAST_STEM);
  }

  /** The angles that a person read, one at each point of rest. */
  TravelReadings stemByEye() {
    return taken(Truth.STEM, this::byEye, others(samples::stem, 1));
  }

  private interface Rule {
    Outcome outcome(TravelError.Place place, Wait wait);
  }

  private TravelReadings taken(Truth truth, Trace trace, int least) {
    return taken(
        truth,
        (place, wait) -> outcome(place, wait, truth, trace, least),
        others(truth == Truth.STEM ? samples::stem : samples::position, least));
  }

  private TravelReadings taken(Truth truth, Rule rule, List<RestReading> others) {
    Map<TravelError.Place, Wait> waits = waits();
    List<RestReading> readings = new ArrayList<>();
    Map<TravelError.Place, String> missing = new LinkedHashMap<>();
    for (TravelError.Place place : spec.places()) {
      Wait wait = waits.get(place);
      Outcome outcome = wait == null ? Outcome.none(NOT_IN_RECORD) : rule.outcome(place, wait);
      if (place.setpointPercent() < unit.characteristic().lowestPercent()) {
        outcome = Outcome.none(below());
      }
      outcome.reading().ifPresent(readings::add);
      if (outcome.reading().isEmpty()) {
        missing.put(place, outcome.reason());
      }
    }
    return new TravelReadings(truth, spec, readings, missing, others, repeats(rule, waits));
  }

  /**
   * Where it rested in the whole record beside the places of the test: in other tests, in attempts
   * that were given up, between tests, at points and in cycles that were not asked for. After a
   * small change of the setpoint a unit need not follow; that says nothing of its error.
   */
  private List<RestReading> others(Function<Lines, Trace> traces, int least) {
    Set<Event.Rested> asked =
        waits().entrySet().stream()
            .filter(w -> !w.getKey().repeated())
            .map(w -> w.getValue().rested())
            .collect(Collectors.toSet());
    List<RestReading> others = new ArrayList<>();
    for (Passage told : Passage.all(judged.record())) {
      if (!told.isTold() || told.isDoubted()) {
        continue;
      }
      double setpoint = told.commanded().orElseThrow().setpointPercent();
      boolean within =
          setpoint >= Math.max(0.0, unit.characteristic().lowestPercent()) && setpoint <= 100.0;
      double change = told.changePercent().orElse(Double.POSITIVE_INFINITY);
      if (within && (least == 1 || Math.abs(change) >= unit.mustFollowPercent() - SAME_PERCENT)) {
        Trace trace = traces.apply(told.lines());
        told.rests().stream()
            .map(RestWait::found)
            .filter(rest -> rest.settled() && !asked.contains(rest))
            .forEach(rest -> other(told, rest, trace, least).ifPresent(others::add));
      }
    }
    return others;
  }

  private Optional<RestReading> other(Passage told, Event.Rested rest, Trace trace, int least) {
    Trace window =
        trace
            .between(Samples.seconds(rest.fromNanos()), Samples.seconds(rest.toNanos()))
            .last(unit.practice().restSamples());
    if (window.size() < least) {
      return Optional.empty();
    }
    Spread spread = window.spread();
    double setpoint = told.commanded().orElseThrow().setpointPercent();
    // Rows that were written down need not stand in the order in which they were approached.
    boolean up =
        rest.direction().equals(Direction.UP.text())
            || (!rest.direction().equals(Direction.DOWN.text())
                && told.changePercent().orElse(0.0) > 0.0);
    return Optional.of(
        new RestReading(
            setpoint,
            judged.asked(told.commanded().orElseThrow()),
            up ? Direction.UP : Direction.DOWN,
            0,
            spread.mean(),
            spread.deviation(),
            spread.count()));
  }

  /** All repeated approaches, or none: what was left out might be what strayed. */
  private List<RestReading> repeats(Rule rule, Map<TravelError.Place, Wait> waits) {
    List<RestReading> repeats = new ArrayList<>();
    for (int i = 1; i <= spec.repeats(); i++) {
      for (Direction direction : Direction.values()) {
        TravelError.Place place = spec.repeat(direction, i);
        Wait wait = waits.get(place);
        if (wait != null) {
          rule.outcome(place, wait).reading().ifPresent(repeats::add);
        }
      }
    }
    return repeats.size() == 2 * spec.repeats() ? repeats : List.of();
  }

  private String below() {
    return "no signal asks for so little: the characteristic begins at "
        + Numbers.plain(unit.characteristic().lowestPercent())
        + " %";
  }

  /** The last wait of each place: an approach that wasn't clean is made again. */
  private Map<TravelError.Place, Wait> waits() {
    Map<TravelError.Place, Wait> waits = new LinkedHashMap<>();
    for (RestWait rest : attempt.map(Chapter::rests).orElse(List.of())) {
      boolean arrival = rest.found().leg() == Leg.ARRIVAL && rest.passage().commanded().isPresent();
      if (arrival && rest.aim().orElse(null) instanceof TravelError.Place place) {
        waits.put(place, wait(rest));
      }
    }
    return waits;
  }

  private static Wait wait(RestWait rest) {
    return new Wait(
        rest.found(),
        rest.passage().commanded().orElseThrow(),
        rest.passage().changePercent().orElse(Double.NaN),
        rest.after().readings("stem").stream().reduce((first, last) -> last));
  }

  private Outcome byEye(TravelError.Place place, Wait wait) {
    Optional<String> unsound = unsound(place, wait);
    if (unsound.isPresent()) {
      return Outcome.none(unsound.get());
    }
    if (wait.stem().isEmpty()) {
      return Outcome.none("no angle was typed in");
    }
    Event.Sampled typed = wait.stem().get();
    if (typed.saturated()) {
      return Outcome.none("the angle is at the end of the reference's range");
    }
    return one(place, wait, samples.percent(typed));
  }

  /** Why nothing that was read after this wait counts. */
  private Optional<String> unsound(TravelError.Place place, Wait wait) {
    Event.Rested rested = wait.rested();
    if (!rested.settled()) {
      return Optional.of("did not settle");
    }
    if (!rested.clean()) {
      return Optional.of("not a clean approach: it overran the setpoint and came back");
    }
    double asked = wait.commanded().setpointPercent();
    double within = judged.setpointWithinPercent(place.setpointPercent());
    if (Math.abs(rested.setpointPercent() - asked) > SAME_PERCENT
        || !(Math.abs(asked - place.setpointPercent()) <= within)
        || !rested.direction().equals(place.direction().text())) {
      return Optional.of("the record contradicts itself about the setpoint in force");
    }
    return Optional.empty();
  }

  private Outcome outcome(TravelError.Place place, Wait wait, Truth truth, Trace trace, int least) {
    Optional<String> unsound = unsound(place, wait);
    if (unsound.isPresent()) {
      return Outcome.none(unsound.get());
    }
    Event.Rested rested = wait.rested();
    double from = Samples.seconds(rested.fromNanos());
    double to = Samples.seconds(rested.toNanos());
    Trace window = trace.between(from, to);
    if (window.size() < least) {
      return Outcome.none("only " + window.size() + " samples at rest, at least " + least);
    }
    Trace used = window.last(unit.practice().restSamples());
    Trace approach = trace.between(Samples.seconds(wait.commanded().answeredNanos()), to);
    Optional<String> unfit = unfit(used, approach, wait.changePercent(), truth);
    return unfit.isPresent() ? Outcome.none(unfit.get()) : reading(place, wait, used);
  }

  /** The stem may be read more slowly than the position, and slack is no fault of the reading. */
  private Optional<String> unfit(Trace used, Trace approach, double change, Truth truth) {
    Optional<String> saturated = TraceGuards.saturated(used);
    if (truth == Truth.STEM || saturated.isPresent()) {
      return saturated;
    }
    Optional<String> frozen =
        Math.abs(change) > unit.mustFollowPercent()
            ? TraceGuards.frozen(approach, unit.practice().restSamples())
            : Optional.empty();
    return frozen
        .or(() -> TraceGuards.gap(used, samples.longestPauseSeconds()))
        .or(
            () ->
                TraceGuards.impossibleSlew(
                    approach,
                    samples.fastestPercentPerSecond(),
                    used.spread().deviation(),
                    samples.resolutionPercent()));
  }

  private Outcome reading(TravelError.Place place, Wait wait, Trace used) {
    Spread spread = used.spread();
    if (!Double.isFinite(spread.mean())) {
      return Outcome.none("a sample is not a number");
    }
    return new Outcome(
        Optional.of(
            new RestReading(
                place.setpointPercent(),
                judged.asked(wait.commanded()),
                place.direction(),
                place.cycle(),
                spread.mean(),
                spread.deviation(),
                spread.count())),
        "");
  }
}
