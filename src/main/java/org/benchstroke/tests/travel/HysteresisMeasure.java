package org.benchstroke.tests.travel;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import org.benchstroke.core.analysis.StaticCharacteristic.Pairing;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.core.uncertainty.Component;
import org.benchstroke.judge.JudgedBench;
import org.benchstroke.judge.Location;
import org.benchstroke.judge.Measure;
import org.benchstroke.judge.Measures;
import org.benchstroke.judge.PositionBudget;
import org.benchstroke.unit.MeasureKind;

/**
 * Hysteresis: what is left of hysteresis + dead band, by either pairing, once the dead band, which
 * has a test of its own, is taken off at the same place (ANSI/ISA-51.1-1979 (R1993), IEC 61298-2,
 * from memory). Immutable.
 */
final class HysteresisMeasure {
  private final TravelReadings taken;
  private final Pairing pairing;
  private final PositionBudget budget;
  private final LagMeasures lags;

  private HysteresisMeasure(JudgedBench judged, TravelReadings taken, Pairing pairing) {
    this.taken = taken;
    this.pairing = pairing;
    this.budget = judged.budget(taken.truth());
    this.lags = new LagMeasures(taken, budget);
  }

  /** Those of a travel error test by each truth. */
  static List<Measure> all(JudgedBench judged, TravelTest travel, List<Measure> measures) {
    List<Measure> bands = measures.stream().filter(m -> m.kind() == MeasureKind.DEAD_BAND).toList();
    List<Measure> all = new ArrayList<>(of(judged, travel.feedback(), bands));
    travel.stem().ifPresent(stem -> all.addAll(of(judged, stem, bands)));
    return all;
  }

  private static List<Measure> of(JudgedBench judged, TravelReadings taken, List<Measure> bands) {
    boolean meansAsked = judged.unit().limit(MeasureKind.HYSTERESIS_MEANS).isPresent();
    List<Measure> measures =
        new LagMeasures(taken, judged.budget(taken.truth()))
            .pairings(meansAsked).stream()
                .map(pairing -> new HysteresisMeasure(judged, taken, pairing).largest(bands))
                .toList();
    return UnaskedRests.heldAgainst(judged, taken, measures);
  }

  /** What is left at one place, and what its U is drawn from. */
  private record Left(Measure measure, DrawnLag.Place place) {
    double value() {
      return measure.value().orElseThrow();
    }
  }

  /** The largest of all places at which both were tested. */
  private Measure largest(List<Measure> bands) {
    List<Left> found = new ArrayList<>();
    for (double at : lags.turned()) {
      List<Measure> here = bands.stream().filter(m -> isAt(m, at)).toList();
      Optional<String> lacking = here.isEmpty() ? Optional.empty() : lacking(at, here);
      if (lacking.isPresent()) {
        return none(place(at), lacking.get());
      }
      if (!here.isEmpty()) {
        found.add(less(at, here));
      }
    }
    if (found.isEmpty()) {
      return none(Location.whole(), "dead band not tested at any point of the travel error test");
    }
    for (Left left : found) {
      // The two ways don't differ by the dead band then: it is not contained and can't be taken
      // off.
      if (left.value() < -left.measure().budget().orElseThrow().expand().half()) {
        return none(left.measure().place(), "the two directions differ by less than the dead band");
      }
    }
    Measure largest =
        found.stream().max(Comparator.comparingDouble(Left::value)).orElseThrow().measure();
    List<DrawnLag.Place> places = found.stream().map(Left::place).toList();
    return Measures.drawn(largest, new DrawnLag(budget, places).half());
  }

  private static boolean isAt(Measure band, double at) {
    return band.place() instanceof Location.Side side && side.percent() == at;
  }

  private Optional<String> lacking(double at, List<Measure> bands) {
    Measure both = lags.at(at, pairing);
    return bands.stream()
        .filter(m -> m.value().isEmpty())
        .map(m -> "dead band at " + m.place().words() + ": " + m.note())
        .findFirst()
        .or(() -> both.value().isEmpty() ? Optional.of(both.note()) : Optional.empty());
  }

  private Left less(double at, List<Measure> bands) {
    Measure both = lags.at(at, pairing);
    double lag = both.value().orElseThrow();
    List<Component> components = new ArrayList<>();
    both.budget()
        .orElseThrow()
        .components()
        .forEach(c -> components.add(c.times(lag < 0 ? -1 : 1)));
    double band = 0.0;
    List<Component> ofBand = new ArrayList<>();
    for (Measure each : bands) {
      band += each.value().orElseThrow() / bands.size();
      for (Component c : each.budget().orElseThrow().components()) {
        ofBand.add(
            c.named(c.source() + ", dead band at " + each.place().words())
                .times(-1.0 / bands.size()));
      }
    }
    components.addAll(ofBand);
    String words =
        "hysteresis + dead band "
            + Numbers.fixed(Math.abs(lag), 2)
            + " % − dead band "
            + Numbers.fixed(band, 2)
            + " % there; "
            + lags.words(pairing);
    Measure measure =
        Measures.value(
                kind(), place(at), taken.truth(), Math.abs(lag) - band, components, method(), words)
            .of(both.scope());
    return new Left(measure, lags.place(at, pairing, band, ofBand));
  }

  private static Location place(double at) {
    return new Location.Point(at);
  }

  private MeasureKind kind() {
    return switch (pairing) {
      case ADJACENT_PASSES -> MeasureKind.HYSTERESIS;
      case MEANS -> MeasureKind.HYSTERESIS_MEANS;
    };
  }

  private String method() {
    return switch (pairing) {
      case ADJACENT_PASSES -> "hysteresis/4";
      case MEANS -> "hysteresis-means/4";
    };
  }

  private Measure none(Location place, String reason) {
    return Measures.none(kind(), place, taken.truth(), method(), reason);
  }
}
