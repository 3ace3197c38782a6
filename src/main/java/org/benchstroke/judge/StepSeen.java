package org.benchstroke.judge;

import java.math.BigDecimal;
import java.util.Arrays;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import org.benchstroke.bench.BenchFile;
import org.benchstroke.bench.InstrumentSpec;
import org.benchstroke.io.instrument.Channel;
import org.benchstroke.io.instrument.Role;
import org.benchstroke.record.Event;
import org.benchstroke.record.RunRecord;
import org.benchstroke.unit.UnitType;

/**
 * The step of a meter's readings where the bench file states none (0): no reading is finer than it
 * was shown. It is the least difference of two of them in the whole record; where all are alike,
 * the last of the digits that they were written with. Stateless.
 */
final class StepSeen {
  private static final Map<Role, String> CHANNELS =
      Map.of(
          Role.POSITION_TRANSMITTER, "position",
          Role.ANGLE_REFERENCE, "stem",
          Role.SUPPLY_METER, "supply");

  /** A smaller difference, relatively, is the arithmetic's, not the reading's. */
  private static final double DUST = 1.0e-9;

  private StepSeen() {}

  /** The bench with a step for each of its meters. */
  static BenchFile on(BenchFile bench, UnitType unit, RunRecord record) {
    List<InstrumentSpec> instruments =
        bench.instruments().stream().map(spec -> seen(spec, unit, record)).toList();
    return bench.with(instruments);
  }

  private static InstrumentSpec seen(InstrumentSpec spec, UnitType unit, RunRecord record) {
    Map<Role, Channel> channels = new EnumMap<>(Role.class);
    channels.putAll(spec.channels());
    CHANNELS.forEach(
        (role, name) ->
            channels.computeIfPresent(
                role,
                (r, channel) ->
                    channel.resolution() > 0.0
                        ? channel
                        : channel.withResolution(step(name, channel, unit, record))));
    return channels.equals(spec.channels()) ? spec : spec.with(channels);
  }

  private static double step(String name, Channel channel, UnitType unit, RunRecord record) {
    List<Event.Sampled> readings =
        record
            .events(Event.Sampled.class)
            .filter(s -> s.channel().equals(name) && Double.isFinite(s.value()))
            .toList();
    String shown = readings.isEmpty() ? channel.unit() : readings.get(0).unit();
    double step = step(readings.stream().mapToDouble(Event.Sampled::value).toArray());
    // A reading may have been written in % of travel, whatever the instrument shows.
    return shown.equals(channel.unit()) ? step : step / unit.percentPer(channel);
  }

  private static double step(double[] readings) {
    double[] values = Arrays.stream(readings).sorted().distinct().toArray();
    double least = Double.POSITIVE_INFINITY;
    for (int i = 1; i < values.length; i++) {
      double step = values[i] - values[i - 1];
      least = step > DUST * Math.max(1.0, Math.abs(values[i])) ? Math.min(least, step) : least;
    }
    return Double.isInfinite(least) ? lastDigit(values) : least;
  }

  private static double lastDigit(double[] values) {
    return Arrays.stream(values)
        .map(v -> BigDecimal.valueOf(v).ulp().doubleValue())
        .min()
        .orElse(0.0);
  }
}
