package org.benchstroke.bench;

import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.benchstroke.core.quantity.CertifiedPoints;
import org.benchstroke.core.uncertainty.Budget;
import org.benchstroke.core.uncertainty.Component;
import org.benchstroke.core.uncertainty.Tie;
import org.benchstroke.io.instrument.Channel;
import org.benchstroke.io.instrument.Role;

/**
 * By how much the instrument in a role may be wrong: the accuracy of its data sheet, or what the
 * certificate of its calibration leaves open once its corrections are applied; what the bench's
 * temperature adds outside of the range in which that holds, what the time since its calibration
 * adds, and of an angle reference how it sits on the stem. In the channel's unit. Immutable, safe
 * for any thread.
 */
public final class InstrumentBounds {
  private static final double DAYS_PER_YEAR = 365.0;

  private final Role role;
  private final Channel channel;
  private final Optional<Mounting> mounting;
  private final double kelvinOutside;
  private final double years;

  private final String box;

  /**
   * One of them.
   *
   * @param source what it comes from
   * @param evaluation whether it is a bound (JCGM 100:2008 4.3.7) or a standard uncertainty that
   *     others state (4.3.3)
   * @param halfWidth the error is anywhere within ± this; of what others state with a normal
   *     distribution it is the standard uncertainty
   * @param id the same for all values and channels of one box that have it in common
   * @param kind how: nothing is known of how they go together, or they are the same
   * @param perUnit by how many times itself it may change over one unit of the channel; empty where
   *     it is what a data sheet bounds
   */
  public record Bound(
      String source,
      Component.Evaluation evaluation,
      double halfWidth,
      String id,
      Tie.Kind kind,
      OptionalDouble perUnit) {
    /** As an input of a budget. */
    public Component component(double sensitivity) {
      double divisor = evaluation == Component.Evaluation.TYPE_B_RECTANGULAR ? Math.sqrt(3.0) : 1.0;
      return new Component(
              source, evaluation, halfWidth / divisor, sensitivity, Double.POSITIVE_INFINITY)
          .tied(kind, id);
    }

    /**
     * How many times itself the difference of two values may be wrong by: 2 at most.
     *
     * @param apart how far they lie from each other, in the channel's unit
     * @param wave what stands for {@link #perUnit} where that is empty
     */
    double change(double apart, double wave) {
      double rate = perUnit.orElse(wave);
      return Double.isInfinite(rate) ? 2.0 : Math.min(2.0, rate * apart);
    }
  }

  private InstrumentBounds(
      Role role,
      Channel channel,
      Optional<Mounting> mounting,
      String box,
      double kelvinOutside,
      double years) {
    this.role = role;
    this.box = box;
    this.channel = channel;
    this.mounting = mounting;
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
              spec.orElseThrow()
                  .holds(role)
                  .flatMap(holds -> bench.ambient().map(holds::kelvinOutside))
                  .orElse(0.0);
          long days =
              ChronoUnit.DAYS.between(calibration.calibrated(), day.orElse(calibration.due()));
          // A record of before the calibration is as far from it as one of after it.
          return new InstrumentBounds(
              role,
              c,
              spec.orElseThrow().mounting().filter(m -> role == Role.ANGLE_REFERENCE),
              spec.orElseThrow().box(),
              outside,
              Math.abs(days) / DAYS_PER_YEAR);
        });
  }

  /** The channel whose bounds they are. */
  public Channel channel() {
    return channel;
  }

  /** Each bound at a value of the channel; what the bench file does not state is not among them. */
  public List<Bound> at(double value) {
    List<Bound> bounds = new ArrayList<>();
    channel
        .certified()
        .ifPresentOrElse(
            c -> bounds.addAll(certified(c, value)),
            () -> bounds.add(bound("accuracy", channel.accuracy().halfWidthAt(value))));
    channel
        .perKelvin()
        .ifPresent(a -> bounds.add(bound("temperature", kelvinOutside * a.halfWidthAt(value))));
    channel.perYear().ifPresent(a -> bounds.add(bound("drift", years * a.halfWidthAt(value))));
    mounting.ifPresent(m -> bounds.addAll(mounted(m)));
    return bounds;
  }

  /**
   * What a certificate leaves open. Its U is that of the standard it was compared with, and of the
   * comparison: nobody knows what two points have in common. Between points the error may leave the
   * straight line as far as the points show it to bend; beyond them it may go away from the last
   * one as what a data sheet bounds may.
   */
  private List<Bound> certified(CertifiedPoints points, double value) {
    double perPoint = 1.0 / points.closest();
    List<Bound> bounds = new ArrayList<>();
    bounds.add(
        new Bound(
            role.key() + " certificate",
            Component.Evaluation.TYPE_B_NORMAL,
            points.standardAt(value),
            box + ", certificate",
            Tie.Kind.ONE_INSTRUMENT,
            OptionalDouble.of(2.0 * perPoint)));
    bounds.add(
        rectangular(
            "between certified points",
            points.bend(),
            Tie.Kind.ONE_INSTRUMENT,
            OptionalDouble.of(4.0 * perPoint)));
    double share = Math.min(2.0, 2.0 * Math.PI * points.beyond(value) / points.span());
    if (share > 0.0) {
      bounds.add(bound("beyond certified points", share * channel.accuracy().halfWidthAt(value)));
    }
    return bounds;
  }

  /**
   * Eccentricity is one wave over a turn of the stem: near its ends more often than in the middle,
   * so U holds its bound in full. The zero is the same everywhere; the coupling may give at each
   * reading anew.
   */
  private List<Bound> mounted(Mounting m) {
    return List.of(
        rectangular(
            "eccentricity",
            m.eccentricityDegrees() / Budget.COVERAGE,
            Tie.Kind.ONE_INSTRUMENT,
            OptionalDouble.of(Math.toRadians(1.0))),
        rectangular("zero", m.zeroDegrees(), Tie.Kind.ALIKE, OptionalDouble.of(0.0)),
        rectangular(
            "coupling",
            m.couplingDegrees() / Budget.COVERAGE,
            Tie.Kind.ONE_INSTRUMENT,
            OptionalDouble.of(Double.POSITIVE_INFINITY)));
  }

  /** What a data sheet bounds. */
  private Bound bound(String what, double halfWidth) {
    return rectangular(what, halfWidth, Tie.Kind.ONE_INSTRUMENT, OptionalDouble.empty());
  }

  private Bound rectangular(String what, double halfWidth, Tie.Kind kind, OptionalDouble perUnit) {
    return new Bound(
        role.key() + " " + what,
        Component.Evaluation.TYPE_B_RECTANGULAR,
        halfWidth,
        box + ", " + what,
        kind,
        perUnit);
  }

  /**
   * All of them together at a value that is not corrected: it is not further off than this. An
   * instrument whose certificate tells of more than its data sheet allows is off by that.
   */
  public double widest(double value) {
    double open = at(value).stream().mapToDouble(InstrumentBounds::reach).sum();
    double allowed = channel.certified().isPresent() ? channel.accuracy().halfWidthAt(value) : 0.0;
    return Math.max(allowed, Math.abs(channel.correctionAt(value)) + open);
  }

  private static double reach(Bound bound) {
    boolean normal = bound.evaluation() == Component.Evaluation.TYPE_B_NORMAL;
    return normal ? 2.0 * bound.halfWidth() : bound.halfWidth();
  }
}
