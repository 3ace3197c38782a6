package org.benchstroke.tests.travel;

import java.util.ArrayList;
import java.util.List;
import org.benchstroke.core.analysis.Direction;
import org.benchstroke.core.uncertainty.Budget;
import org.benchstroke.core.uncertainty.Component;
import org.benchstroke.core.uncertainty.DrawnErrors;
import org.benchstroke.judge.PositionBudget;

/**
 * U of the largest difference between coming down and going up, over the places of a travel error
 * test and, where single passes are paired, over the pairs of each place: by draws of the errors of
 * all readings (JCGM 101:2008 clause 7). The truth that it holds is the largest difference that the
 * unit has on the average. Slack is the same everywhere: places whose difference from the largest
 * may be chance count as equal to it, which is where the largest is favoured most. Immutable.
 */
final class DrawnLag {
  /** Within so many deviations a difference may be chance. */
  private static final double CHANCE = 2.0;

  private final List<Place> places;
  private final int[] first;
  private final double bothCreep;
  private final DrawnErrors errors;

  /**
   * One reading, or the mean of several, from one side.
   *
   * @param direction from which side
   * @param inputs of its error, %
   */
  record Pass(Direction direction, List<Component> inputs) {}

  /**
   * One place.
   *
   * @param lagPercent mean down − mean up
   * @param lessPercent what is taken off its magnitude; 0 if nothing is
   * @param passes in their order: each is paired with the next from the other side
   * @param shared the inputs that all pairs of the place have in common
   * @param less the inputs of what is taken off
   */
  record Place(
      double lagPercent,
      double lessPercent,
      List<Pass> passes,
      List<Component> shared,
      List<Component> less) {
    double centre() {
      return Math.abs(lagPercent) - lessPercent;
    }

    /** Columns of its errors: the passes, shared, less. */
    int columns() {
      return passes.size() + 2;
    }
  }

  DrawnLag(PositionBudget budget, List<Place> places) {
    this.places = List.copyOf(places);
    this.first = new int[places.size()];
    List<List<Component>> inputs = new ArrayList<>();
    for (int i = 0; i < first.length; i++) {
      first[i] = inputs.size();
      places.get(i).passes().forEach(pass -> inputs.add(pass.inputs()));
      inputs.add(places.get(i).shared());
      inputs.add(places.get(i).less());
    }
    // Whatever it still creeps, it does at all places of one side alike.
    this.bothCreep = budget.creepPercent(Direction.UP) + budget.creepPercent(Direction.DOWN);
    inputs.add(bothCreep > 0.0 ? PositionBudget.creep(1.0) : List.of());
    this.errors = new DrawnErrors(inputs);
  }

  /** U of the largest. */
  double half() {
    double largest = places.stream().mapToDouble(Place::centre).max().orElseThrow();
    List<Integer> equal = new ArrayList<>();
    for (int i = 0; i < first.length; i++) {
      int place = i;
      double chance = CHANCE * Math.sqrt(2.0) * errors.deviation(e -> ofMeans(place, e));
      if (largest - places.get(i).centre() <= chance) {
        equal.add(i);
      }
    }
    return errors.halfWidth(
        Budget.COVERAGE,
        e -> equal.stream().mapToDouble(i -> read(i, largest, e)).max().orElseThrow() - largest);
  }

  /** By how much the difference of the means of a place is off, less what is taken off it. */
  private double ofMeans(int place, double[] e) {
    double[] sums = new double[2];
    int[] counts = new int[2];
    List<Pass> passes = places.get(place).passes();
    for (int j = 0; j < passes.size(); j++) {
      int side = passes.get(j).direction() == Direction.UP ? 0 : 1;
      sums[side] += e[first[place] + j];
      counts[side]++;
    }
    double common = e[first[place] + passes.size()];
    return sums[1] / counts[1] - sums[0] / counts[0] + common - less(place, e);
  }

  /** What would be read of a place that has the largest, with these errors. */
  private double read(int place, double largest, double[] e) {
    Place p = places.get(place);
    double lag = Math.copySign(largest + p.lessPercent(), p.lagPercent());
    double common =
        lag
            + e[first[place] + p.passes().size()]
            + Math.copySign(1.0, lag) * e[e.length - 1] * bothCreep;
    double most = 0.0;
    for (int j = 1; j < p.passes().size(); j++) {
      Direction now = p.passes().get(j).direction();
      if (now != p.passes().get(j - 1).direction()) {
        double rise = e[first[place] + j] - e[first[place] + j - 1];
        most = Math.max(most, Math.abs(common + (now == Direction.DOWN ? rise : -rise)));
      }
    }
    return most - p.lessPercent() - less(place, e);
  }

  private double less(int place, double[] e) {
    return e[first[place] + places.get(place).columns() - 1];
  }
}
