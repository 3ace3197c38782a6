package org.benchstroke.cli;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import org.benchstroke.app.GaugePlan.Turn;
import org.benchstroke.app.WrongRequest;
import org.benchstroke.archive.ShopHistory.Measured;
import org.benchstroke.core.statistics.CrossedGauge;
import org.benchstroke.core.statistics.NestedGauge;
import org.benchstroke.core.statistics.StudyAnswer;

/**
 * The values of a gauge study by unit and operator, in the order of time. Not changed once made.
 */
final class GaugeCells {
  private final Map<Turn, List<Double>> cells = new LinkedHashMap<>();
  private final Set<String> units = new TreeSet<>();
  private final Map<String, Set<String>> unitsOf = new TreeMap<>();

  /**
   * Of values.
   *
   * @param benches whether benches stand in place of operators
   */
  GaugeCells(List<Measured> values, boolean benches) {
    for (Measured each : values) {
      String unit = each.run().labels().serial();
      String operator = benches ? each.run().facts().bench() : each.run().labels().operator();
      units.add(unit);
      unitsOf.computeIfAbsent(operator, o -> new LinkedHashSet<>()).add(unit);
      cells
          .computeIfAbsent(new Turn(unit, operator), t -> new ArrayList<>())
          .add(each.measure().value().orElseThrow());
    }
  }

  int units() {
    return units.size();
  }

  int operators() {
    return unitsOf.size();
  }

  /** The fewest values of a cell that is there. */
  int repeats() {
    return cells.values().stream().mapToInt(List::size).min().orElse(0);
  }

  /** How many values are beyond what every cell has: the later ones are left out. */
  int over() {
    return cells.values().stream().mapToInt(List::size).sum() - repeats() * cells.size();
  }

  /**
   * The study.
   *
   * @param nested whether each operator has units of their own
   * @throws WrongRequest if cells are missing or thin
   */
  StudyAnswer study(boolean nested) throws WrongRequest {
    if (operators() == 1) {
      return NestedGauge.ofOneOperator(readings(List.copyOf(units), one()));
    }
    return nested ? nested() : crossed();
  }

  private String one() {
    return unitsOf.keySet().iterator().next();
  }

  private StudyAnswer crossed() throws WrongRequest {
    List<double[][]> all = new ArrayList<>();
    for (String unit : units) {
      List<double[]> row = new ArrayList<>();
      for (String operator : unitsOf.keySet()) {
        row.add(cell(unit, operator));
      }
      all.add(row.toArray(double[][]::new));
    }
    return CrossedGauge.byVariance(all.toArray(double[][][]::new));
  }

  private StudyAnswer nested() throws WrongRequest {
    int each = unitsOf.values().stream().mapToInt(Set::size).min().orElse(0);
    Set<String> met = new TreeSet<>();
    List<double[][]> all = new ArrayList<>();
    for (Map.Entry<String, Set<String>> own : unitsOf.entrySet()) {
      if (own.getValue().size() != each) {
        throw new WrongRequest(
            "--nested: as many units for each operator are wanted; "
                + own.getKey()
                + " has "
                + own.getValue().size()
                + ", another has "
                + each);
      }
      for (String unit : own.getValue()) {
        if (!met.add(unit)) {
          throw new WrongRequest(
              "--nested: unit " + unit + " was tested by several operators; leave --nested out");
        }
      }
      all.add(readings(List.copyOf(own.getValue()), own.getKey()));
    }
    return NestedGauge.byVariance(all.toArray(double[][][]::new));
  }

  private double[][] readings(List<String> of, String operator) throws WrongRequest {
    List<double[]> rows = new ArrayList<>();
    for (String unit : of) {
      rows.add(cell(unit, operator));
    }
    return rows.toArray(double[][]::new);
  }

  private double[] cell(String unit, String operator) throws WrongRequest {
    List<Double> values = cells.getOrDefault(new Turn(unit, operator), List.of());
    if (values.size() < 2) {
      throw new WrongRequest(
          "unit "
              + unit
              + " by "
              + operator
              + " has "
              + values.size()
              + " values, at least 2 are needed of each unit by each operator; test it again, choose"
              + " runs, or, if each has units of their own, add --nested");
    }
    return values.stream().limit(repeats()).mapToDouble(Double::doubleValue).toArray();
  }
}
