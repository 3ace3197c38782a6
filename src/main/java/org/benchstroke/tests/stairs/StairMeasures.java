package org.benchstroke.tests.stairs;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.benchstroke.core.analysis.Direction;
import org.benchstroke.core.analysis.Spread;
import org.benchstroke.core.analysis.Staircase.Next.Found;
import org.benchstroke.core.quantity.Position;
import org.benchstroke.core.uncertainty.Component;
import org.benchstroke.core.uncertainty.Tie;
import org.benchstroke.judge.Chapter;
import org.benchstroke.judge.JudgedBench;
import org.benchstroke.judge.Location;
import org.benchstroke.judge.Measure;
import org.benchstroke.judge.Measures;
import org.benchstroke.judge.PositionBudget;
import org.benchstroke.judge.Scope;
import org.benchstroke.judge.TestJudge;
import org.benchstroke.judge.TestResult;
import org.benchstroke.judge.TestTrace;
import org.benchstroke.judge.Truth;
import org.benchstroke.unit.MeasureKind;

/**
 * Dead band or resolution at each place, for each direction of the approach: the change of the
 * signal at which the unit moved, taken from the record's readings anew.
 */
public final class StairMeasures implements TestJudge {
  /** A step above this share of the result is coarse (common practice, no source). */
  private static final double COARSE = 0.1;

  /** A scatter of this share of a step makes roundings to it independent of one another. */
  private static final double SPREADS = 0.5;

  private final JudgedBench judged;
  private final MeasureKind kind;
  private final String test;
  private final StairPlan plan;
  private final Optional<Chapter> attempt;
  private final boolean done;

  static StairMeasures ofDeadBand(JudgedBench judged, DeadBand spec, Optional<Chapter> attempt) {
    return new StairMeasures(judged, MeasureKind.DEAD_BAND, spec.name(), spec.plan(), attempt);
  }

  static StairMeasures ofResolution(
      JudgedBench judged, Resolution spec, Optional<Chapter> attempt) {
    return new StairMeasures(judged, MeasureKind.RESOLUTION, spec.name(), spec.plan(), attempt);
  }

  private StairMeasures(
      JudgedBench judged,
      MeasureKind kind,
      String test,
      StairPlan plan,
      Optional<Chapter> attempt) {
    this.judged = judged;
    this.kind = kind;
    this.test = test;
    this.plan = plan;
    this.attempt = attempt;
    this.done = attempt.isPresent();
  }

  @Override
  public TestResult result() {
    List<Search> searches = searches();
    List<List<Found>> found = searches.stream().filter(Search::whole).map(Search::found).toList();
    Optional<Component> scatter = scatter(test, found);
    List<Measure> measures =
        searches.stream().map(s -> s.whole() ? measured(s, scatter) : none(s)).toList();
    List<TestTrace> traces = new ArrayList<>();
    searches.stream()
        .filter(s -> s.stairs().stream().anyMatch(cycle -> !cycle.isEmpty()))
        .forEach(s -> traces.add(new TestTrace.OfStairs(s.place(), kind, s.stairs(), s.found())));
    return TestResult.measures(measures).from(traces);
  }

  /** The cycles of one place and direction, or why one has no result. */
  private record Search(
      Position at,
      Direction direction,
      List<Found> found,
      String reason,
      List<List<TestTrace.Stair>> stairs) {
    boolean whole() {
      return reason.isEmpty();
    }

    Location place() {
      return new Location.Side(at.percent(), direction);
    }
  }

  private List<Search> searches() {
    Optional<String> lacking =
        done
            ? judged.budget(Truth.FEEDBACK).instruments().lacking()
            : Optional.of("the test was not completed");
    Optional<StairReadings> readings = attempt.map(a -> new StairReadings(judged, a));
    List<Search> searches = new ArrayList<>();
    for (Position at : plan.places()) {
      for (Direction direction : Direction.values()) {
        searches.add(
            lacking.isPresent()
                ? new Search(at, direction, List.of(), lacking.get(), List.of())
                : search(at, direction, readings.orElseThrow()));
      }
    }
    return searches;
  }

  private Search search(Position at, Direction direction, StairReadings readings) {
    boolean reverses = kind == MeasureKind.DEAD_BAND;
    int sign = (direction == Direction.UP) == reverses ? -1 : 1;
    List<Found> found = new ArrayList<>();
    List<List<TestTrace.Stair>> stairs = new ArrayList<>();
    for (int cycle = 1; cycle <= plan.cycles(); cycle++) {
      StairReadings.Outcome outcome =
          readings.search(new StairPlan.Climb(test, at, direction, cycle), sign, plan.step());
      stairs.add(outcome.stairs());
      if (outcome.found().isEmpty()) {
        String which = plan.cycles() > 1 ? "cycle " + cycle + ": " : "";
        return new Search(at, direction, List.of(), which + outcome.reason(), stairs);
      }
      found.add(outcome.found().get());
    }
    return new Search(at, direction, found, "", stairs);
  }

  private Measure measured(Search search, Optional<Component> scatter) {
    List<Found> found = search.found();
    double mean = middles(found).mean();
    List<Component> components = components(found, scatter);
    double at = search.at().percent();
    PositionBudget budget = judged.budget(Truth.FEEDBACK);
    // By as much as it creeps after the approach its distance from the setpoint changes.
    components.addAll(budget.creep(search.direction()));
    for (Component step : budget.instruments().sourceStep(at)) {
      components.add(step.named(step.source() + ", at the approach"));
      components.add(step.named(step.source() + ", at the motion").times(-1.0));
    }
    boolean coarse = 2.0 * widest(found) > COARSE * mean * (1.0 + 1.0e-6);
    String note = coarse ? "the step is more than a tenth of it" : "";
    return Measures.value(kind, search.place(), Truth.FEEDBACK, mean, components, method(), note)
        .of(Scope.UNIT);
  }

  private static Spread middles(List<Found> found) {
    return Spread.of(found.stream().map(Found::middlePercent).toList());
  }

  private static double widest(List<Found> found) {
    return found.stream().mapToDouble(Found::halfPercent).max().orElseThrow();
  }

  /**
   * The scatter of one cycle, pooled over all places and directions (JCGM 100:2008 4.2.4): few
   * cycles at one place often agree by chance. Empty without any.
   *
   * @param test whose scatter it is: one estimate in all of its results
   */
  public static Optional<Component> scatter(String test, List<List<Found>> searches) {
    double squares = 0.0;
    double degrees = 0.0;
    for (List<Found> found : searches) {
      double deviation = middles(found).deviation();
      squares += deviation * deviation * (found.size() - 1.0);
      degrees += found.size() - 1.0;
    }
    return degrees > 0.0
        ? Optional.of(
            Component.typeA("scatter between cycles, pooled", Math.sqrt(squares / degrees), degrees)
                .tied(Tie.Kind.ONE_ESTIMATE, "scatter of the searches, " + test))
        : Optional.empty();
  }

  /**
   * What the search adds: its last bracket, and the scatter of one cycle over √cycles. A scatter of
   * half a step or more spreads the brackets: their width then shows in it and counts once.
   */
  public static List<Component> components(List<Found> found, Optional<Component> scatter) {
    List<Component> components = new ArrayList<>();
    double step = 2.0 * widest(found);
    if (scatter.map(Component::standard).orElse(0.0) < SPREADS * step) {
      components.add(Component.rectangular("step of the search", step / 2.0, 1.0));
    }
    scatter.ifPresent(s -> components.add(s.times(1.0 / Math.sqrt(found.size()))));
    return components;
  }

  private Measure none(Search search) {
    return Measures.none(kind, search.place(), Truth.FEEDBACK, method(), search.reason());
  }

  private String method() {
    return test.replace(' ', '-').toLowerCase(Locale.ROOT) + "/2";
  }
}
