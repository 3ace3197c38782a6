package org.benchstroke.app.history;

import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.Set;
import org.benchstroke.app.WrongRequest;
import org.benchstroke.archive.ArchivedRun.MeasureRow;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.core.statistics.Baseline;
import org.benchstroke.core.statistics.Capability;
import org.benchstroke.core.statistics.Capability.Index;
import org.benchstroke.core.statistics.CapabilityAnswer;
import org.benchstroke.core.statistics.ChartRule;
import org.benchstroke.core.statistics.Charts;
import org.benchstroke.core.statistics.ControlChart;
import org.benchstroke.core.statistics.Tolerance;

/**
 * How much room the limits of a measure leave. Immutable.
 *
 * @param series the values
 * @param tolerance the limits
 * @param answer the indices, or why there are none
 * @param signals how many values are signals of their chart: with any, there is no capability
 */
public record CapabilityStudy(
    Series series, Tolerance tolerance, CapabilityAnswer answer, long signals) {
  /** The intervals hold the index in so many of 100 cases. */
  public static final double COVERAGE = 0.95;

  /**
   * Refuses what has no capability.
   *
   * @throws WrongRequest if neither a type nor a bench was chosen
   */
  public static void require(ChosenRuns runs, Naming naming) throws WrongRequest {
    if (runs.type().isEmpty() && runs.bench().isEmpty()) {
      throw new WrongRequest(
          "capability: units of all types together have none; add "
              + naming.of("type")
              + " (or "
              + naming.of("bench")
              + ")");
    }
  }

  /**
   * Of a series.
   *
   * @param low a lower limit in place of those of the runs
   * @param high an upper one
   * @throws WrongRequest if the runs have no limit, or several, and none was stated
   */
  public static CapabilityStudy of(
      Series series, OptionalDouble low, OptionalDouble high, Naming naming) throws WrongRequest {
    Tolerance tolerance = tolerance(series, low, high, naming);
    double[] values = series.numbers();
    return new CapabilityStudy(
        series, tolerance, Capability.ofIndividuals(values, tolerance, COVERAGE), signals(values));
  }

  private static Tolerance tolerance(
      Series series, OptionalDouble low, OptionalDouble high, Naming naming) throws WrongRequest {
    if (low.isPresent() || high.isPresent()) {
      if (low.isPresent() && high.isPresent() && low.getAsDouble() >= high.getAsDouble()) {
        throw new WrongRequest(
            naming.of("low")
                + ": found "
                + Numbers.plain(low.getAsDouble())
                + ", allowed is less than "
                + naming.of("high")
                + ", "
                + Numbers.plain(high.getAsDouble()));
      }
      return new Tolerance(low, high);
    }
    String stated = "state one with " + naming.of("low") + " and " + naming.of("high");
    Set<List<OptionalDouble>> limits = new HashSet<>();
    for (var value : series.values()) {
      MeasureRow row = value.measure();
      limits.add(List.of(row.low(), row.high()));
    }
    if (limits.size() > 1) {
      throw new WrongRequest("these runs have " + limits.size() + " different limits; " + stated);
    }
    List<OptionalDouble> one =
        limits.stream().findFirst().orElse(List.of(OptionalDouble.empty(), OptionalDouble.empty()));
    if (one.stream().allMatch(OptionalDouble::isEmpty)) {
      throw new WrongRequest("these runs have no limit on it; " + stated);
    }
    return new Tolerance(one.get(0), one.get(1));
  }

  /** How many points of the chart of all values are signals. */
  private static long signals(double[] values) {
    return Charts.individuals(values, new Baseline.First(values.length), ChartRule.ZONES)
            instanceof ControlChart chart
        ? chart.signals().stream().map(ControlChart.Signal::index).distinct().count()
        : 0;
  }

  /** The limits: "−1 to 1", "at most 2"; without the unit. */
  public String limits() {
    if (tolerance.low().isEmpty()) {
      return "at most " + limit(tolerance.high());
    }
    return tolerance.high().isEmpty()
        ? "at least " + limit(tolerance.low())
        : limit(tolerance.low()) + " to " + limit(tolerance.high());
  }

  private static String limit(OptionalDouble limit) {
    return limit.isPresent() ? Numbers.minusSigns(Numbers.plain(limit.getAsDouble())) : "";
  }

  /** The indices by their names. */
  public static Map<String, Index> indices(Capability found) {
    Map<String, Index> indices = new LinkedHashMap<>();
    found.cp().ifPresent(index -> indices.put("Cp", index));
    indices.put("Cpk", found.cpk());
    found.pp().ifPresent(index -> indices.put("Pp", index));
    indices.put("Ppk", found.ppk());
    return indices;
  }

  /** Which index may be quoted, in a sentence. */
  public static String advice(Capability found) {
    return switch (found.basis()) {
      case NORMAL -> "The values may be normal: the indices may be quoted.";
      case PERCENTILES ->
          "The values are not normal: quote only the index by percentiles, "
              + Numbers.minusSigns(Numbers.significant(found.percentiles().orElseThrow(), 3))
              + ", which is no Cpk.";
      case NONE ->
          "The values are not normal, and there are too few for percentiles ("
              + Capability.FEWEST_FOR_PERCENTILES
              + "): no index may be quoted.";
    };
  }

  /** That it is not in control, in two sentences. */
  public String notInControl() {
    return "NOT IN CONTROL: "
        + signals
        + " of these values are signals of their chart. A process that is not in control has no"
        + " capability; look at the trend first.";
  }
}
