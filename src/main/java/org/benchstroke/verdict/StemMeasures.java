package org.benchstroke.verdict;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.benchstroke.analysis.RestReading;
import org.benchstroke.analysis.Spread;
import org.benchstroke.bench.MeasureKind;
import org.benchstroke.quantity.Numbers;
import org.benchstroke.uncertainty.Component;

/**
 * What a travel error test says where the stem was read beside the feedback: the error of the
 * feedback transmitter against the angle reference, and the quadrant.
 */
final class StemMeasures {
  private static final String FEEDBACK_METHOD = "feedback-error/1";
  private static final String QUADRANT_METHOD = "quadrant/1";

  private final JudgedBench judged;
  private final Taken feedback;
  private final Taken stem;

  StemMeasures(JudgedBench judged, Taken feedback, Taken stem) {
    this.judged = judged;
    this.feedback = feedback;
    this.stem = stem;
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
    Taken.Place worst = null;
    double largest = 0.0;
    for (Taken.Place place : Taken.places(feedback.spec())) {
      double difference = mean(of(feedback, place)) - mean(of(stem, place));
      if (place.cycle() == 1 && (worst == null || Math.abs(difference) > Math.abs(largest))) {
        worst = place;
        largest = difference;
      }
    }
    List<Component> components = new ArrayList<>();
    components.addAll(side(Truth.FEEDBACK, of(feedback, worst), 1.0));
    components.addAll(side(Truth.STEM, of(stem, worst), -1.0));
    return Measures.value(
        MeasureKind.FEEDBACK_ERROR,
        Numbers.plain(worst.setpointPercent()) + " % " + worst.direction().text(),
        Truth.STEM,
        largest,
        components,
        FEEDBACK_METHOD,
        "feedback − stem, largest of all points");
  }

  private List<Component> side(Truth truth, List<RestReading> cycles, double sign) {
    PositionBudget budget = judged.budget(truth);
    List<Component> components = new ArrayList<>(budget.instruments().meterAlone(mean(cycles)));
    components.add(budget.rest(cycles));
    return components.stream()
        .map(c -> c.named(c.source() + ", " + truth.text()).times(sign))
        .toList();
  }

  /** The stem's angle where the unit says closed: what a unit mated in another quadrant shows. */
  private Measure quadrant() {
    Taken.Place closed =
        Taken.places(stem.spec()).stream()
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
    components.add(budget.rest(cycles));
    return Measures.value(
        MeasureKind.QUADRANT,
        "0 %",
        Truth.STEM,
        mean(cycles) * degreesPerPercent,
        components.stream().map(c -> c.in("%").times(degreesPerPercent)).toList(),
        QUADRANT_METHOD,
        "");
  }

  private static List<RestReading> of(Taken taken, Taken.Place place) {
    return taken.whole(place.setpointPercent(), place.direction()).orElseThrow();
  }

  private static double mean(List<RestReading> cycles) {
    return Spread.of(cycles.stream().map(RestReading::meanPercent).toList()).mean();
  }

  private static Measure none(MeasureKind kind, String method, String reason) {
    return Measures.none(kind, "", Truth.STEM, method, reason);
  }
}
