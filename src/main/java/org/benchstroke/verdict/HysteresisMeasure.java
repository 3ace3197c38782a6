package org.benchstroke.verdict;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import org.benchstroke.bench.MeasureKind;
import org.benchstroke.uncertainty.Component;

/**
 * Hysteresis: what is left of hysteresis + dead band once the dead band, which has a test of its
 * own, is taken off (ANSI/ISA-51.1-1979 (R1993), IEC 61298-2, from memory). Stateless.
 */
final class HysteresisMeasure {
  private static final String METHOD = "hysteresis/1";
  private static final String DEAD_BAND_KEY = "dead_band_pct";

  private HysteresisMeasure() {}

  /** One for each hysteresis + dead band; none where there is no travel error test. */
  static List<Measure> all(List<Measure> measures) {
    return measures.stream()
        .filter(m -> m.kind() == MeasureKind.HYSTERESIS_PLUS_DEAD_BAND)
        .map(m -> of(m, measures))
        .toList();
  }

  private static Measure of(Measure both, List<Measure> measures) {
    List<Measure> bands =
        measures.stream()
            .filter(m -> m.kind().key().equals(DEAD_BAND_KEY) && m.truth() == both.truth())
            .toList();
    if (bands.isEmpty()) {
      return none(both, "dead band not tested");
    }
    if (both.value().isEmpty()) {
      return none(both, both.note());
    }
    Optional<Measure> without = bands.stream().filter(m -> m.value().isEmpty()).findFirst();
    if (without.isPresent()) {
      return none(both, "dead band: " + without.get().note());
    }
    Measure band =
        bands.stream().max(Comparator.comparingDouble(m -> m.value().orElseThrow())).orElseThrow();
    double sign = both.value().get() < 0.0 ? -1.0 : 1.0;
    List<Component> components = new ArrayList<>();
    both.budget().orElseThrow().components().forEach(c -> components.add(c.times(sign)));
    band.budget()
        .orElseThrow()
        .components()
        .forEach(c -> components.add(c.named(c.source() + ", dead band").times(-1.0)));
    return Measures.value(
        MeasureKind.HYSTERESIS,
        both.place(),
        both.truth(),
        Math.abs(both.value().get()) - band.value().orElseThrow(),
        components,
        METHOD,
        "hysteresis + dead band − dead band at " + band.place() + "; means of each direction");
  }

  private static Measure none(Measure both, String reason) {
    return Measures.none(MeasureKind.HYSTERESIS, "", both.truth(), METHOD, reason);
  }
}
