package org.benchstroke.bench;

import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.benchstroke.instrument.Channel;
import org.benchstroke.instrument.Role;

/**
 * By how much the instrument in a role may be wrong: the accuracy of its data sheet, what the
 * bench's temperature adds outside of the range in which that holds, and what the time since its
 * calibration adds. Each is a bound (JCGM 100:2008 4.3.7), in the channel's unit. Immutable, safe
 * for any thread.
 */
public final class InstrumentBounds {
  private static final double DAYS_PER_YEAR = 365.0;

  private final Role role;
  private final Channel channel;
  private final double kelvinOutside;
  private final double years;

  /**
   * One of them.
   *
   * @param source what it comes from
   * @param halfWidth the error is anywhere within ± this
   */
  public record Bound(String source, double halfWidth) {}

  private InstrumentBounds(Role role, Channel channel, double kelvinOutside, double years) {
    this.role = role;
    this.channel = channel;
    this.kelvinOutside = kelvinOutside;
    this.years = years;
  }

  /**
   * Of the instrument that plays the role.
   *
   * @param day when it was used; if that is not known, the last day on which it may be
   * @return empty if none plays it or its channel is not described
   */
  public static Optional<InstrumentBounds> of(BenchFile bench, Role role, Optional<LocalDate> day) {
    Optional<InstrumentSpec> spec = bench.playing(role);
    Optional<Channel> channel = spec.map(s -> s.channels().get(role));
    return channel.map(
        c -> {
          InstrumentSpec.Calibration calibration = spec.orElseThrow().calibration();
          double outside =
              calibration
                  .holds()
                  .flatMap(holds -> bench.ambient().map(holds::kelvinOutside))
                  .orElse(0.0);
          long days =
              ChronoUnit.DAYS.between(calibration.calibrated(), day.orElse(calibration.due()));
          // A record of before the calibration is as far from it as one of after it.
          return new InstrumentBounds(role, c, outside, Math.abs(days) / DAYS_PER_YEAR);
        });
  }

  /** The channel whose bounds they are. */
  public Channel channel() {
    return channel;
  }

  /** Each bound at a value of the channel; what the bench file does not state is not among them. */
  public List<Bound> at(double value) {
    List<Bound> bounds = new ArrayList<>();
    bounds.add(new Bound(role.key() + " accuracy", channel.accuracy().halfWidthAt(value)));
    channel
        .perKelvin()
        .ifPresent(
            a ->
                bounds.add(
                    new Bound(role.key() + " temperature", kelvinOutside * a.halfWidthAt(value))));
    channel
        .perYear()
        .ifPresent(a -> bounds.add(new Bound(role.key() + " drift", years * a.halfWidthAt(value))));
    return bounds;
  }

  /** All of them together at a value: it can't be further off than this. */
  public double widest(double value) {
    return at(value).stream().mapToDouble(Bound::halfWidth).sum();
  }
}
