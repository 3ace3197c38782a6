package org.benchstroke.verdict;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import org.benchstroke.analysis.Direction;
import org.benchstroke.bench.MeasureKind;
import org.benchstroke.quantity.Numbers;
import org.benchstroke.uncertainty.Component;

/**
 * Hysteresis: what is left of hysteresis + dead band once the dead band, which has a test of its
 * own, is taken off at the same place (ANSI/ISA-51.1-1979 (R1993), IEC 61298-2, from memory).
 * Stateless.
 */
final class HysteresisMeasure {
  private static final String METHOD = "hysteresis/3";
  private static final MeasureKind KIND = MeasureKind.HYSTERESIS;

  private HysteresisMeasure() {}

  /** One for each travel error test and truth; none where there is no such test. */
  static List<Measure> all(JudgedBench judged, List<TravelTest> travels, List<Measure> measures) {
    List<Measure> bands = measures.stream().filter(m -> m.kind() == MeasureKind.DEAD_BAND).toList();
    List<Measure> all = new ArrayList<>();
    for (TravelTest travel : travels) {
      all.add(of(judged, travel.feedback(), bands));
      travel.stem().ifPresent(stem -> all.add(of(judged, stem, bands)));
    }
    return all;
  }

  /** The largest of all places at which both were tested. */
  private static Measure of(JudgedBench judged, Taken taken, List<Measure> bands) {
    TravelMeasures travel = new TravelMeasures(taken, judged.budget(taken.truth()), "");
    List<Measure> found = new ArrayList<>();
    for (double at : travel.turned()) {
      String place = Numbers.plain(at) + " %";
      List<Measure> here =
          bands.stream()
              .filter(
                  m ->
                      List.of(Direction.values()).stream()
                          .anyMatch(d -> m.place().equals(place + " " + d.text())))
              .toList();
      if (!here.isEmpty()) {
        found.add(less(travel.hysteresisPlusDeadBand(at), here, place));
      }
    }
    if (found.isEmpty()) {
      return none(taken, "", "dead band not tested at any point of the travel error test");
    }
    Optional<Measure> without = found.stream().filter(m -> m.value().isEmpty()).findFirst();
    return without.orElseGet(
        () ->
            found.stream()
                .max(Comparator.comparingDouble(m -> m.value().orElseThrow()))
                .orElseThrow());
  }

  private static Measure less(Measure both, List<Measure> bands, String place) {
    Optional<String> lacking =
        bands.stream()
            .filter(m -> m.value().isEmpty())
            .map(m -> "dead band at " + m.place() + ": " + m.note())
            .findFirst();
    if (both.value().isEmpty() || lacking.isPresent()) {
      return none(both, place, lacking.orElse(both.note()));
    }
    double sign = both.value().get() < 0.0 ? -1.0 : 1.0;
    List<Component> components = new ArrayList<>();
    both.budget().orElseThrow().components().forEach(c -> components.add(c.times(sign)));
    double band = 0.0;
    for (Measure each : bands) {
      band += each.value().orElseThrow() / bands.size();
      for (Component c : each.budget().orElseThrow().components()) {
        components.add(
            c.named(c.source() + ", dead band at " + each.place()).times(-1.0 / bands.size()));
      }
    }
    double value = Math.abs(both.value().get()) - band;
    Measure measure =
        Measures.value(
                KIND,
                place,
                both.truth(),
                value,
                components,
                METHOD,
                "hysteresis + dead band "
                    + Numbers.fixed(Math.abs(both.value().get()), 2)
                    + " % − dead band "
                    + Numbers.fixed(band, 2)
                    + " % there, means of each direction")
            .of(both.scope());
    double half = measure.budget().orElseThrow().expand().half();
    // The two ways don't differ by the dead band then: it is not contained and can't be taken off.
    return value < -half
        ? none(both, place, "the two directions differ by less than the dead band")
        : measure;
  }

  private static Measure none(Measure both, String place, String reason) {
    return Measures.none(KIND, place, both.truth(), METHOD, reason);
  }

  private static Measure none(Taken taken, String place, String reason) {
    return Measures.none(KIND, place, taken.truth(), METHOD, reason);
  }
}
