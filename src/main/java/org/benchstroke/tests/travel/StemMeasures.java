package org.benchstroke.tests.travel;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.IntToDoubleFunction;
import org.benchstroke.core.analysis.RestReading;
import org.benchstroke.core.analysis.Spread;
import org.benchstroke.core.uncertainty.Budget;
import org.benchstroke.core.uncertainty.Component;
import org.benchstroke.core.uncertainty.DrawnErrors;
import org.benchstroke.judge.JudgedBench;
import org.benchstroke.judge.Location;
import org.benchstroke.judge.Measure;
import org.benchstroke.judge.Measures;
import org.benchstroke.judge.PositionBudget;
import org.benchstroke.judge.Scatter;
import org.benchstroke.judge.Scope;
import org.benchstroke.judge.Truth;
import org.benchstroke.unit.MeasureKind;

/**
 * What a travel error test says where the stem was read beside the feedback: the error of the
 * feedback transmitter against the angle reference, and the quadrant.
 */
final class StemMeasures {
  private static final String FEEDBACK_METHOD = "feedback-error/2";
  private static final String QUADRANT_METHOD = "quadrant/2";

  private final JudgedBench judged;
  private final TravelReadings feedback;
  private final TravelReadings stem;
  private final Optional<Component> scatter;

  StemMeasures(JudgedBench judged, TravelReadings feedback, TravelReadings stem) {
    this.judged = judged;
    this.feedback = feedback;
    this.stem = stem;
    this.scatter = scatter(feedback, stem);
  }

  List<Measure> all() {
    return List.of(feedbackError(), quadrant());
  }

  /** The largest over all points and both ways; of nothing while one reading is missing. */
  private Measure feedbackError() {
    Optional<String> why =
        judged
            .budget(Truth.FEEDBACK)
            .instruments()
            .meterLacking()
            .or(() -> judged.budget(Truth.STEM).instruments().meterLacking())
            .or(feedback::anyLacking)
            .or(stem::anyLacking);
    if (why.isPresent()) {
      return none(MeasureKind.FEEDBACK_ERROR, FEEDBACK_METHOD, why.get());
    }
    TravelError.Place worst = null;
    double largest = 0.0;
    for (TravelError.Place place : feedback.spec().places()) {
      double difference = mean(of(feedback, place)) - mean(of(stem, place));
      if (place.cycle() == 1 && (worst == null || Math.abs(difference) > Math.abs(largest))) {
        worst = place;
        largest = difference;
      }
    }
    List<Component> components = new ArrayList<>(shared(worst));
    components.addAll(own(worst));
    Measure measure =
        Measures.value(
            MeasureKind.FEEDBACK_ERROR,
            new Location.Side(worst.setpointPercent(), worst.direction()),
            Truth.STEM,
            largest,
            components,
            FEEDBACK_METHOD,
            "feedback − stem, largest of all points");
    return Measures.drawn(measure, half(Math.abs(largest)))
        .of(scatter.isPresent() ? Scope.UNIT : Scope.READINGS);
  }

  /**
   * U of the largest, by draws; both readings of a point share what the meters are off by there.
   * From point to point their errors may be alike or not, which widens it once this way and once
   * that: the wider counts.
   */
  private double half(double largest) {
    List<TravelError.Place> places =
        feedback.spec().places().stream().filter(p -> p.cycle() == 1).toList();
    List<Double> points =
        places.stream().map(TravelError.Place::setpointPercent).distinct().toList();
    int[] of = new int[places.size()];
    double[] differences = new double[places.size()];
    List<List<Component>> readings = new ArrayList<>();
    for (double point : points) {
      readings.add(
          places.stream()
              .filter(p -> p.setpointPercent() == point)
              .findFirst()
              .map(this::shared)
              .orElseThrow());
    }
    for (int i = 0; i < of.length; i++) {
      TravelError.Place place = places.get(i);
      of[i] = points.indexOf(place.setpointPercent());
      differences[i] = mean(of(feedback, place)) - mean(of(stem, place));
      readings.add(own(place));
    }
    double[] bounds =
        readings.subList(0, points.size()).stream()
            .mapToDouble(r -> r.stream().mapToDouble(Component::contribution).sum())
            .toArray();
    int widest = 0;
    for (int p = 0; p < bounds.length; p++) {
      widest = bounds[p] > bounds[widest] ? p : widest;
    }
    int one = widest;
    DrawnErrors errors = new DrawnErrors(readings);
    return Math.max(
        errors.halfWidth(
            Budget.COVERAGE, e -> most(differences, of, e, points.size(), p -> e[p]) - largest),
        errors.halfWidth(
            Budget.COVERAGE,
            e ->
                most(
                        differences,
                        of,
                        e,
                        points.size(),
                        p -> bounds[one] > 0.0 ? e[one] / bounds[one] * bounds[p] : 0.0)
                    - largest));
  }

  private static double most(
      double[] differences, int[] of, double[] e, int points, IntToDoubleFunction shared) {
    double most = 0.0;
    for (int i = 0; i < of.length; i++) {
      double off = shared.applyAsDouble(of[i]) + e[points + i];
      most = Math.max(most, Math.abs(differences[i] + off));
    }
    return most;
  }

  /** Accuracy, temperature and drift of both meters at a point. */
  private List<Component> shared(TravelError.Place place) {
    List<Component> components = new ArrayList<>();
    for (Truth truth : List.of(Truth.FEEDBACK, Truth.STEM)) {
      double at = mean(of(truth == Truth.STEM ? stem : feedback, place));
      for (Component c : judged.budget(truth).instruments().meterAccuracy(at)) {
        components.add(named(c, truth));
      }
    }
    return components;
  }

  /**
   * The steps of both meters, and the noise of their readings or, if that is more, how their
   * difference scatters from approach to approach. Where the unit comes to rest is the same for
   * both.
   */
  private List<Component> own(TravelError.Place place) {
    List<Component> components = new ArrayList<>();
    for (Truth truth : List.of(Truth.FEEDBACK, Truth.STEM)) {
      judged.budget(truth).instruments().meterStep().forEach(c -> components.add(named(c, truth)));
    }
    List<Component> within =
        List.of(within(Truth.FEEDBACK, of(feedback, place)), within(Truth.STEM, of(stem, place)));
    double noise = within.stream().mapToDouble(Component::contribution).reduce(0.0, Math::hypot);
    double cycles = of(feedback, place).size();
    Optional<Component> between = scatter.map(s -> s.times(1.0 / Math.sqrt(cycles)));
    if (between.map(s -> s.contribution() > noise).orElse(false)) {
      components.add(between.get());
    } else {
      components.addAll(within);
    }
    for (Truth truth : List.of(Truth.FEEDBACK, Truth.STEM)) {
      judged.budget(truth).creep(place.direction()).forEach(c -> components.add(named(c, truth)));
    }
    return components;
  }

  /** Of feedback − stem, from approach to approach. */
  private static Optional<Component> scatter(TravelReadings feedback, TravelReadings stem) {
    List<List<Double>> groups = new ArrayList<>();
    List<List<Double>> ofStem = stem.alike();
    List<List<Double>> ofFeedback = feedback.alike();
    for (int i = 0; ofStem.size() == ofFeedback.size() && i < ofStem.size(); i++) {
      List<Double> group = new ArrayList<>();
      for (int j = 0; j < Math.min(ofFeedback.get(i).size(), ofStem.get(i).size()); j++) {
        group.add(ofFeedback.get(i).get(j) - ofStem.get(i).get(j));
      }
      groups.add(group);
    }
    return Scatter.pooled("feedback − stem, scatter from approach to approach", groups, "both");
  }

  private Component within(Truth truth, List<RestReading> cycles) {
    Component one = judged.budget(truth).oneReading(cycles);
    return named(one, truth).times(1.0 / Math.sqrt(cycles.size()));
  }

  private static Component named(Component c, Truth truth) {
    return c.named(c.source() + ", " + truth.text()).times(truth == Truth.STEM ? -1.0 : 1.0);
  }

  /** The stem's angle where the unit says closed: what a unit mated in another quadrant shows. */
  private Measure quadrant() {
    TravelError.Place closed =
        stem.spec().places().stream()
            .filter(p -> p.setpointPercent() == 0.0)
            .findFirst()
            .orElse(null);
    if (closed == null) {
      return none(MeasureKind.QUADRANT, QUADRANT_METHOD, "the test does not come to 0 %");
    }
    PositionBudget budget = judged.budget(Truth.STEM);
    Optional<String> why =
        budget
            .instruments()
            .meterLacking()
            .or(() -> stem.lacking(closed.setpointPercent(), closed.direction()));
    if (why.isPresent()) {
      return none(MeasureKind.QUADRANT, QUADRANT_METHOD, why.get());
    }
    List<RestReading> cycles = of(stem, closed);
    double degreesPerPercent = judged.unit().travelDegrees() / 100.0;
    List<Component> components = new ArrayList<>(budget.instruments().meterAlone(mean(cycles)));
    components.addAll(budget.rest(cycles));
    components.addAll(budget.creep(closed.direction()));
    return Measures.value(
            MeasureKind.QUADRANT,
            new Location.Point(0.0),
            Truth.STEM,
            mean(cycles) * degreesPerPercent,
            components.stream().map(c -> c.in("%").times(degreesPerPercent)).toList(),
            QUADRANT_METHOD,
            "")
        .of(budget.scope());
  }

  private static List<RestReading> of(TravelReadings taken, TravelError.Place place) {
    return taken.whole(place.setpointPercent(), place.direction()).orElseThrow();
  }

  private static double mean(List<RestReading> cycles) {
    return Spread.of(cycles.stream().map(RestReading::meanPercent).toList()).mean();
  }

  private static Measure none(MeasureKind kind, String method, String reason) {
    return Measures.none(kind, Location.whole(), Truth.STEM, method, reason);
  }
}
