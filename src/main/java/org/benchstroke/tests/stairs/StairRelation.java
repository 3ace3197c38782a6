package org.benchstroke.tests.stairs;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.core.uncertainty.Budget;
import org.benchstroke.core.uncertainty.Component;
import org.benchstroke.judge.Finding;
import org.benchstroke.judge.JudgedBench;
import org.benchstroke.judge.Location;
import org.benchstroke.judge.Measure;
import org.benchstroke.judge.Measures;
import org.benchstroke.judge.Relation;
import org.benchstroke.judge.Scope;
import org.benchstroke.unit.MeasureKind;

/**
 * What dead band D and resolution R of one place tell of an on/off controller that starts above an
 * error h_on, stops its motor h_off before the setpoint, and coasts c: R = h_on − h_off + c, D =
 * h_on + h_off − c, so h_on = (R + D)/2 and h_off − c = (D − R)/2 (arithmetic). At D = 0 it hunts.
 */
public final class StairRelation implements Relation {
  private static final String METHOD = "start-and-stop/2";

  /**
   * The largest of as many looks as a quick controller takes while a stair is waited for, in
   * deviations of its noise: half of all largest of 300 are less (normal distribution).
   */
  private static final double LARGEST_OF_LOOKS = 2.83;

  /** A start threshold is set this much above the onset of hunting (common practice, no source). */
  private static final double BEYOND_ONSET = 1.2;

  private record Pair(Measure band, Measure step) {
    Location place() {
      return band.place();
    }
  }

  @Override
  public List<Measure> measures(List<Measure> measures, JudgedBench judged) {
    return all(measures, judged.noiseAtRestPercent());
  }

  /**
   * Start threshold and stop lead of each place that has both.
   *
   * @param noisePercent the noise of one reading at rest, %: as much of it may be the unit's own
   */
  public static List<Measure> all(List<Measure> measures, double noisePercent) {
    List<Measure> derived = new ArrayList<>();
    for (Pair pair : pairs(measures)) {
      derived.add(helped(combined(MeasureKind.START_THRESHOLD, pair, 0.5, ""), noisePercent));
      derived.add(
          combined(
              MeasureKind.STOP_LEAD,
              pair,
              -0.5,
              "(D − R)/2: how far before the setpoint it stops, less its coasting; an on/off"
                  + " controller"));
    }
    return derived;
  }

  private static List<Pair> pairs(List<Measure> measures) {
    List<Pair> pairs = new ArrayList<>();
    for (Measure band : measures) {
      if (band.kind() == MeasureKind.DEAD_BAND) {
        measures.stream()
            .filter(m -> m.kind() == MeasureKind.RESOLUTION && m.place().equals(band.place()))
            .findFirst()
            .ifPresent(step -> pairs.add(new Pair(band, step)));
      }
    }
    return pairs;
  }

  private static Measure combined(MeasureKind kind, Pair pair, double ofStep, String note) {
    Optional<Measure> without =
        List.of(pair.band(), pair.step()).stream().filter(m -> m.value().isEmpty()).findFirst();
    if (without.isPresent()) {
      Measure m = without.get();
      return Measures.none(
          kind, pair.place(), m.truth(), METHOD, m.kind().title() + ": " + m.note());
    }
    List<Component> components = new ArrayList<>();
    components.addAll(inputs(pair.band(), 0.5));
    components.addAll(inputs(pair.step(), ofStep));
    double value =
        0.5 * pair.band().value().orElseThrow() + ofStep * pair.step().value().orElseThrow();
    return Measures.value(kind, pair.place(), pair.band().truth(), value, components, METHOD, note)
        .of(Scope.UNIT);
  }

  /**
   * Noise that its controller sees makes an error look larger, now and then, so that the motor
   * starts below the threshold. How much it sees nobody knows: none of it where the noise is the
   * bench's, twice as much where the transmitter smooths more than the controller does (our choice,
   * no source). What was found is too small by nothing to twice the largest of its looks; the
   * middle is taken, and U holds both ends in full (bounds that lie to one side: JCGM 100:2008
   * 4.3.8, from memory).
   */
  private static Measure helped(Measure found, double noisePercent) {
    if (found.value().isEmpty()) {
      return found;
    }
    double half = LARGEST_OF_LOOKS * noisePercent;
    List<Component> components = new ArrayList<>(found.budget().orElseThrow().components());
    components.add(
        Component.rectangular("noise that helps it to start", half / Budget.COVERAGE, 1.0));
    return Measures.value(
            found.kind(),
            found.place(),
            found.truth(),
            found.value().orElseThrow() + half,
            components,
            METHOD,
            "(R + D)/2 and "
                + Numbers.significant(half, 2)
                + " % that noise may have taken off; an on/off controller")
        .of(found.scope());
  }

  private static List<Component> inputs(Measure measure, double factor) {
    return measure.budget().orElseThrow().components().stream()
        .map(c -> c.named(c.source() + ", " + measure.kind().title()).times(factor))
        .toList();
  }

  /** How far each place is from hunting. */
  @Override
  public List<Finding> findings(List<Measure> measures) {
    List<Finding> findings = new ArrayList<>();
    for (Measure m : measures) {
      if (m.kind() == MeasureKind.DEAD_BAND && m.value().isPresent()) {
        findings.add(new Finding(Finding.Kind.HUNTING_MARGIN, margin(m) + advice(m, measures)));
      }
    }
    return findings;
  }

  private static String margin(Measure band) {
    double value = band.value().orElseThrow();
    double half = band.budget().orElseThrow().expand().half();
    return "Margin to hunting at "
        + band.place().words()
        + ": a dead band of "
        + Numbers.within(value, half, 2, "%")
        + ", so at least "
        + Numbers.fixed(Math.max(0.0, value - half), 2)
        + " %.";
  }

  /** With the stop lead as it is, D = 0 at a start threshold of minus the lead. */
  private static String advice(Measure band, List<Measure> measures) {
    Optional<Measure> lead =
        measures.stream()
            .filter(m -> m.kind() == MeasureKind.STOP_LEAD && m.place().equals(band.place()))
            .filter(m -> m.value().isPresent())
            .findFirst();
    if (lead.isEmpty()) {
      return "";
    }
    double half = lead.get().budget().orElseThrow().expand().half();
    double onset = half - lead.get().value().orElseThrow();
    if (onset <= 0.0) {
      return " It stops before its setpoint: coasting can't make it hunt, whatever its start"
          + " threshold.";
    }
    double least = BEYOND_ONSET * onset;
    return startsWider(band.place(), measures, least)
        ? " Clear of hunting: its start threshold is more than 20 % beyond where it may begin to"
            + " hunt, U included."
        : " Set its start threshold to at least "
            + Numbers.fixed(least, 2)
            + " %: 20 % beyond where it may begin to hunt, U included.";
  }

  /** Whether even the least that its start threshold may be is more: then nothing is to be set. */
  private static boolean startsWider(Location place, List<Measure> measures, double percent) {
    return measures.stream()
        .filter(m -> m.kind() == MeasureKind.START_THRESHOLD && m.place().equals(place))
        .filter(m -> m.value().isPresent())
        .anyMatch(
            m -> m.value().orElseThrow() - m.budget().orElseThrow().expand().half() > percent);
  }
}
