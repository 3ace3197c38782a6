package org.benchstroke.bench;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.benchstroke.instrument.Channel;
import org.benchstroke.instrument.Role;
import org.benchstroke.quantity.Position;
import org.benchstroke.uncertainty.Component;

/**
 * What the bench's instruments add to the uncertainty of a position error, from their data sheets,
 * in % of travel. Data sheet bounds are rectangular (JCGM 100:2008 4.3.7), a display's step is ±
 * half of it (F.2.2.1). Immutable, safe for any thread.
 */
public final class InstrumentBudget {
  private final UnitType unit;
  private final Optional<Channel> source;
  private final Optional<Channel> meter;
  private final Role meterRole;

  /**
   * For positions read by one of the bench's meters.
   *
   * @param meterRole the position transmitter or the angle reference
   */
  public InstrumentBudget(BenchFile bench, UnitType unit, Role meterRole) {
    this.unit = unit;
    this.meterRole = meterRole;
    this.source = channel(bench, Role.SIGNAL_SOURCE);
    this.meter = channel(bench, meterRole);
  }

  private static Optional<Channel> channel(BenchFile bench, Role role) {
    return bench.playing(role).map(i -> i.channels().get(role));
  }

  /** Why there can be no budget; without one a value is worth nothing. */
  public Optional<String> lacking() {
    if (source.isEmpty()) {
      return Optional.of("the bench file states no accuracy of the signal source");
    }
    return meter.isEmpty()
        ? Optional.of("the bench file states no accuracy of the " + meterRole.key())
        : Optional.empty();
  }

  /** Accuracy of source and meter at a point: an error that all readings there have in common. */
  public List<Component> accuracy(double setpointPercent, double meanPercent) {
    List<Component> components = new ArrayList<>();
    source.ifPresent(
        c -> {
          double milliamps = unit.currentAt(Position.ofPercent(setpointPercent)).milliamps();
          double half = c.accuracy().halfWidthAt(milliamps);
          double slope = unit.percentPerMilliampAt(Position.ofPercent(setpointPercent));
          components.add(Component.rectangular("signal source accuracy", half, slope).in("mA"));
        });
    meter.ifPresent(c -> components.add(meterAccuracy(c, meanPercent)));
    return components;
  }

  private Component meterAccuracy(Channel channel, double meanPercent) {
    double reading =
        switch (channel.unit()) {
          case "mA" -> unit.feedback().currentAt(Position.ofPercent(meanPercent)).milliamps();
          case "deg" -> meanPercent / 100.0 * unit.travelDegrees();
          default -> meanPercent;
        };
    return Component.rectangular(
            meterRole.key() + " accuracy",
            channel.accuracy().halfWidthAt(reading),
            unit.percentPer(channel))
        .in(channel.unit());
  }

  /** Accuracy and step of the meter alone at a position: where the signal plays no part. */
  public List<Component> meterAlone(double percent) {
    List<Component> components = new ArrayList<>();
    meter.ifPresent(
        c -> {
          components.add(meterAccuracy(c, percent));
          components.add(meterStep(c));
        });
    return components;
  }

  private Component meterStep(Channel channel) {
    return Component.rectangular(
            meterRole.key() + " resolution", channel.resolution() / 2.0, unit.percentPer(channel))
        .in(channel.unit());
  }

  /** Why the meter alone can have no budget. */
  public Optional<String> meterLacking() {
    return meter.isEmpty()
        ? Optional.of("the bench file states no accuracy of the " + meterRole.key())
        : Optional.empty();
  }

  /** The accuracy of the meter alone, ± %, at a position. */
  public double meterHalfWidthPercent(double percent) {
    return meter.map(c -> meterAccuracy(c, percent)).orElseThrow().contribution() * Math.sqrt(3.0);
  }

  /** The steps of source and meter at a setpoint: anew for each reading. */
  public List<Component> steps(double setpointPercent) {
    List<Component> components = new ArrayList<>();
    source.ifPresent(
        c ->
            components.add(
                Component.rectangular(
                        "signal source resolution",
                        c.resolution() / 2.0,
                        unit.percentPerMilliampAt(Position.ofPercent(setpointPercent)))
                    .in("mA")));
    meter.ifPresent(c -> components.add(meterStep(c)));
    return components;
  }
}
