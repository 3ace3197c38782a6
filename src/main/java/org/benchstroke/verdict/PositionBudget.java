package org.benchstroke.verdict;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.benchstroke.analysis.RestReading;
import org.benchstroke.analysis.Spread;
import org.benchstroke.bench.BenchFile;
import org.benchstroke.bench.UnitType;
import org.benchstroke.instrument.Channel;
import org.benchstroke.instrument.Role;
import org.benchstroke.quantity.Position;
import org.benchstroke.uncertainty.Component;

/**
 * The inputs of the uncertainty of a position error, from the bench's data sheets and the readings,
 * in % of travel: source, meter, rest. Data sheet bounds are rectangular (JCGM 100:2008 4.3.7), a
 * display's step is ± half of it (F.2.2.1).
 */
final class PositionBudget {
  private final UnitType unit;
  private final Samples samples;
  private final Optional<Channel> source;
  private final Optional<Channel> meter;
  private final Role meterRole;

  PositionBudget(BenchFile bench, UnitType unit, Truth truth) {
    this.unit = unit;
    this.samples = new Samples(bench, unit);
    this.meterRole = truth == Truth.STEM ? Role.ANGLE_REFERENCE : Role.POSITION_TRANSMITTER;
    this.source = channel(bench, Role.SIGNAL_SOURCE);
    this.meter = channel(bench, meterRole);
  }

  private static Optional<Channel> channel(BenchFile bench, Role role) {
    return bench.playing(role).map(i -> i.channels().get(role));
  }

  /** Why there can be no budget; without one a value is worth nothing. */
  Optional<String> lacking() {
    if (source.isEmpty()) {
      return Optional.of("the bench file states no accuracy of the signal source");
    }
    return meter.isEmpty()
        ? Optional.of("the bench file states no accuracy of the " + meterRole.key())
        : Optional.empty();
  }

  /** Accuracy of source and meter at a point: an error that all readings there have in common. */
  List<Component> accuracy(double setpointPercent, double meanPercent) {
    List<Component> components = new ArrayList<>();
    source.ifPresent(
        c -> {
          double milliamps =
              unit.signal().currentAt(Position.ofPercent(setpointPercent)).milliamps();
          double half = c.accuracy().halfWidthAt(milliamps);
          components.add(
              Component.rectangular(
                  "signal source accuracy", half, unit.signal().percentPerMilliamp()));
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
        samples.percentPer(channel));
  }

  /** The accuracy of the meter alone, ± %, at a position. */
  double meterHalfWidthPercent(double percent) {
    return meter.map(c -> meterAccuracy(c, percent)).orElseThrow().contribution() * Math.sqrt(3.0);
  }

  /** The steps of source and meter: anew for each reading. */
  List<Component> steps() {
    List<Component> components = new ArrayList<>();
    source.ifPresent(
        c ->
            components.add(
                Component.rectangular(
                    "signal source resolution",
                    c.resolution() / 2.0,
                    unit.signal().percentPerMilliamp())));
    meter.ifPresent(
        c ->
            components.add(
                Component.rectangular(
                    meterRole.key() + " resolution", c.resolution() / 2.0, samples.percentPer(c))));
    return components;
  }

  /**
   * The scatter of the mean over the cycles. With two cycles or more s/√m between them, ν = m − 1;
   * with one s/√n within the window, ν = n − 1; never less than what the windows alone give.
   */
  Component rest(List<RestReading> cycles) {
    double squares = 0.0;
    double degrees = 0.0;
    for (RestReading r : cycles) {
      squares += r.deviationPercent() * r.deviationPercent() / r.samples();
      degrees += r.samples() - 1.0;
    }
    int m = cycles.size();
    Component within =
        Component.typeA("rest, scatter within the window", Math.sqrt(squares) / m, degrees);
    if (m < 2) {
      return within;
    }
    double between = Spread.of(cycles.stream().map(RestReading::errorPercent).toList()).ofMean();
    return between >= within.standard()
        ? Component.typeA("rest, scatter between cycles", between, m - 1.0)
        : within;
  }

  /** All inputs of the error at a point. */
  List<Component> error(List<RestReading> cycles) {
    RestReading first = cycles.get(0);
    List<Component> components =
        new ArrayList<>(accuracy(first.setpointPercent(), first.meanPercent()));
    components.addAll(steps());
    components.add(rest(cycles));
    return components;
  }

  /** Inputs that belong to a place, with a factor: for a measure made from several points. */
  static List<Component> placed(List<Component> components, String place, double factor) {
    return components.stream()
        .map(c -> c.named(c.source() + " at " + place).times(factor))
        .toList();
  }
}
