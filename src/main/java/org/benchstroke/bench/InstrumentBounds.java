package org.benchstroke.bench;

import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.benchstroke.instrument.Channel;
import org.benchstroke.instrument.Role;
import org.benchstroke.uncertainty.Component;
import org.benchstroke.uncertainty.Tie;

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

  private final String box;

  /**
   * One of them.
   *
   * @param source what it comes from
   * @param halfWidth the error is anywhere within ± this
   * @param id the same for all values and channels of one box: nothing is known of how its errors
   *     there go together
   */
  public record Bound(String source, double halfWidth, String id) {
    /** As an input of a budget. */
    public Component component(double sensitivity) {
      return Component.rectangular(source, halfWidth, sensitivity)
          .tied(Tie.Kind.ONE_INSTRUMENT, id);
    }
  }

  private InstrumentBounds(
      Role role, Channel channel, String box, double kelvinOutside, double years) {
    this.role = role;
    this.box = box;
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
          return new InstrumentBounds(
              role, c, spec.orElseThrow().box(), outside, Math.abs(days) / DAYS_PER_YEAR);
        });
  }

  /** The channel whose bounds they are. */
  public Channel channel() {
    return channel;
  }

  /** Each bound at a value of the channel; what the bench file does not state is not among them. */
  public List<Bound> at(double value) {
    List<Bound> bounds = new ArrayList<>();
    bounds.add(bound("accuracy", channel.accuracy().halfWidthAt(value)));
    channel
        .perKelvin()
        .ifPresent(a -> bounds.add(bound("temperature", kelvinOutside * a.halfWidthAt(value))));
    channel.perYear().ifPresent(a -> bounds.add(bound("drift", years * a.halfWidthAt(value))));
    return bounds;
  }

  private Bound bound(String what, double halfWidth) {
    return new Bound(role.key() + " " + what, halfWidth, box + ", " + what);
  }

  /** All of them together at a value: it can't be further off than this. */
  public double widest(double value) {
    return at(value).stream().mapToDouble(Bound::halfWidth).sum();
  }
}
