package org.benchstroke.judge;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.benchstroke.bench.BenchFile;
import org.benchstroke.bench.InstrumentSpec;
import org.benchstroke.bench.TemperatureRange;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.io.instrument.Channel;
import org.benchstroke.io.instrument.Role;
import org.benchstroke.record.Event;
import org.benchstroke.record.RunRecord;

/** How warm it was at the bench while the unit was tested. Stateless. */
final class Ambient {
  private Ambient() {}

  /**
   * The bench at the temperatures of its file, widened to the one that was stated for the run: one
   * reading of a thermometer does not say how warm it was all the time, so it never narrows them.
   */
  static BenchFile bench(BenchFile bench, RunRecord record) {
    Optional<Double> stated = stated(record);
    if (stated.isEmpty()) {
      return bench;
    }
    double at = stated.get();
    return bench.at(
        bench
            .ambient()
            .map(
                a ->
                    new TemperatureRange(
                        Math.min(a.lowCelsius(), at), Math.max(a.highCelsius(), at)))
            .orElse(new TemperatureRange(at, at)));
  }

  /** What U does not know of the temperature that was stated. */
  static List<Finding> findings(BenchFile bench, RunRecord record) {
    List<Finding> findings = new ArrayList<>();
    Optional<Double> stated = stated(record);
    if (stated.isEmpty()) {
      return findings;
    }
    TemperatureRange at = new TemperatureRange(stated.get(), stated.get());
    for (InstrumentSpec spec : bench.instruments()) {
      for (Map.Entry<Role, Channel> each : spec.channels().entrySet()) {
        double outside = spec.holds(each.getKey()).map(h -> h.kelvinOutside(at)).orElse(0.0);
        if (outside > 0.0 && each.getValue().perKelvin().isEmpty()) {
          findings.add(
              new Finding(
                  Finding.Kind.AMBIENT,
                  "It was "
                      + Numbers.plain(stated.get())
                      + " °C at the bench, "
                      + Numbers.fixed(outside, 1)
                      + " K outside the range in which the error of "
                      + spec.name()
                      + " ("
                      + each.getKey().key()
                      + ") is known; the bench file states no temperature_coefficient for it, so"
                      + " that is not in U."));
        }
      }
    }
    return findings;
  }

  private static Optional<Double> stated(RunRecord record) {
    return record
        .events(Event.Job.class)
        .map(j -> Optional.ofNullable(j.air().get(Event.Job.TEMPERATURE)))
        .flatMap(Optional::stream)
        .findFirst();
  }
}
