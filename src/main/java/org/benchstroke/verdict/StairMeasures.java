package org.benchstroke.verdict;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.benchstroke.analysis.Spread;
import org.benchstroke.analysis.Staircase.Next.Found;
import org.benchstroke.bench.MeasureKind;
import org.benchstroke.procedure.StairPlan;
import org.benchstroke.quantity.Numbers;
import org.benchstroke.quantity.Position;
import org.benchstroke.record.Entry;
import org.benchstroke.uncertainty.Component;

/**
 * Dead band or resolution at each place, for each direction of the approach: the change of the
 * signal at which the unit moved, taken from the record's readings anew.
 */
final class StairMeasures {
  /** A step above this share of the result is coarse (common practice, no source). */
  private static final double COARSE = 0.1;

  private final JudgedBench judged;
  private final MeasureKind kind;
  private final String test;
  private final StairPlan plan;
  private final List<Entry> entries;
  private final boolean done;

  StairMeasures(
      JudgedBench judged,
      MeasureKind kind,
      String test,
      StairPlan plan,
      Optional<Attempt> attempt) {
    this.judged = judged;
    this.kind = kind;
    this.test = test;
    this.plan = plan;
    this.entries = attempt.map(Attempt::entries).orElse(List.of());
    this.done = attempt.isPresent();
  }

  List<Measure> all() {
    StairReadings readings = new StairReadings(judged, entries);
    List<Measure> measures = new ArrayList<>();
    for (Position at : plan.places()) {
      for (String direction : List.of("up", "down")) {
        measures.add(of(at, direction, readings));
      }
    }
    return measures;
  }

  private Measure of(Position at, String direction, StairReadings readings) {
    String place = Numbers.plain(at.percent()) + " % " + direction;
    Optional<String> lacking =
        done
            ? judged.budget(Truth.FEEDBACK).instruments().lacking()
            : Optional.of("the test was not completed");
    if (lacking.isPresent()) {
      return none(place, lacking.get());
    }
    boolean reverses = kind == MeasureKind.DEAD_BAND;
    int sign = direction.equals("up") == reverses ? -1 : 1;
    List<Found> found = new ArrayList<>();
    for (int cycle = 1; cycle <= plan.cycles(); cycle++) {
      StairReadings.Outcome outcome =
          readings.search(StairPlan.point(test, at, direction), cycle, sign, plan.step());
      if (outcome.found().isEmpty()) {
        String which = plan.cycles() > 1 ? "cycle " + cycle + ": " : "";
        return none(place, which + outcome.reason());
      }
      found.add(outcome.found().get());
    }
    return measured(at, place, found);
  }

  private Measure measured(Position at, String place, List<Found> found) {
    Spread middles = Spread.of(found.stream().map(Found::middlePercent).toList());
    double half = found.stream().mapToDouble(Found::halfPercent).max().orElseThrow();
    List<Component> components = new ArrayList<>();
    components.add(Component.rectangular("step of the search", half, 1.0));
    for (Component step : judged.budget(Truth.FEEDBACK).instruments().steps(at.percent())) {
      if (step.source().startsWith("signal source")) {
        components.add(step.named(step.source() + ", at the approach"));
        components.add(step.named(step.source() + ", at the motion").times(-1.0));
      }
    }
    if (found.size() > 1) {
      components.add(
          Component.typeA("scatter between cycles", middles.ofMean(), found.size() - 1.0));
    }
    String cycles = found.size() == 1 ? "one cycle: its scatter is not known" : "";
    String coarse =
        2.0 * half > COARSE * middles.mean() * (1.0 + 1.0e-6)
            ? "the step is more than a tenth of it"
            : "";
    String note = cycles.isEmpty() || coarse.isEmpty() ? cycles + coarse : cycles + "; " + coarse;
    return Measures.value(kind, place, Truth.FEEDBACK, middles.mean(), components, method(), note);
  }

  private Measure none(String place, String reason) {
    return Measures.none(kind, place, Truth.FEEDBACK, method(), reason);
  }

  private String method() {
    return test.replace(' ', '-').toLowerCase(Locale.ROOT) + "/1";
  }
}
