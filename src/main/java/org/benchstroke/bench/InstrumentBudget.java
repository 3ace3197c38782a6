package org.benchstroke.bench;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.benchstroke.core.quantity.Position;
import org.benchstroke.core.uncertainty.Component;
import org.benchstroke.io.instrument.Channel;
import org.benchstroke.io.instrument.Role;
import org.benchstroke.unit.UnitType;

/**
 * What the bench's instruments add to the uncertainty of a position error, from their data sheets,
 * in % of travel. Data sheet bounds are rectangular (JCGM 100:2008 4.3.7) and tied to one another
 * within a box, a display's step is ± half of it (F.2.2.1). Immutable, safe for any thread.
 */
public final class InstrumentBudget {
  private final UnitType unit;
  private final Optional<InstrumentBounds> source;
  private final Optional<InstrumentBounds> meter;
  private final Role meterRole;
  private final SetpointDigits digits;

  /**
   * For positions read by one of the bench's meters.
   *
   * @param meterRole the position transmitter or the angle reference
   * @param day when they were read, for the drift since the calibration; if it is not known, the
   *     last day of each certificate stands for it
   */
  public InstrumentBudget(BenchFile bench, UnitType unit, Role meterRole, Optional<LocalDate> day) {
    this(bench, unit, meterRole, day, SetpointDigits.EXACT);
  }

  /**
   * For positions at setpoints that were written down, or read.
   *
   * @param digits how far those are known
   */
  public InstrumentBudget(
      BenchFile bench,
      UnitType unit,
      Role meterRole,
      Optional<LocalDate> day,
      SetpointDigits digits) {
    this.unit = unit;
    this.digits = digits;
    this.meterRole = meterRole;
    this.source = InstrumentBounds.of(bench, Role.SIGNAL_SOURCE, day);
    this.meter = InstrumentBounds.of(bench, meterRole, day);
  }

  /** Why there can be no budget; without one a value is worth nothing. */
  public Optional<String> lacking() {
    if (source.isEmpty()) {
      return Optional.of("the bench file states no accuracy of the signal source");
    }
    return meterLacking();
  }

  /**
   * Accuracy, temperature and drift of source and meter at a point: errors that all readings there
   * have in common.
   */
  public List<Component> accuracy(double setpointPercent, double meanPercent) {
    List<Component> components = new ArrayList<>();
    source.ifPresent(
        bounds -> {
          double milliamps = unit.currentAt(Position.ofPercent(setpointPercent)).milliamps();
          double slope = unit.percentPerMilliampAt(Position.ofPercent(setpointPercent));
          components.addAll(components(bounds.at(milliamps), slope, "mA"));
        });
    components.addAll(meterAccuracy(meanPercent));
    return components;
  }

  private static List<Component> components(
      List<InstrumentBounds.Bound> bounds, double sensitivity, String inputUnit) {
    return bounds.stream().map(b -> b.component(sensitivity).in(inputUnit)).toList();
  }

  /** Accuracy, temperature and drift of the meter alone at a position. */
  public List<Component> meterAccuracy(double percent) {
    return meter
        .map(
            bounds -> {
              Channel channel = bounds.channel();
              return components(
                  bounds.at(unit.readingAt(channel, percent)),
                  unit.percentPer(channel),
                  channel.unit());
            })
        .orElse(List.of());
  }

  /**
   * What is left of the meter's accuracy in the difference of two positions that lie close
   * together. What its data sheet bounds changes no faster along the travel than one full wave
   * would over all of it; of two that lie far apart nothing is known but the bounds.
   */
  public List<Component> meterBetween(double percent, double otherPercent) {
    return meter.map(bounds -> between(bounds, percent, otherPercent)).orElse(List.of());
  }

  private List<Component> between(InstrumentBounds bounds, double percent, double otherPercent) {
    Channel channel = bounds.channel();
    double perUnit = Math.abs(unit.percentPer(channel));
    double apart = Math.abs(percent - otherPercent) / perUnit;
    double wave = 2.0 * Math.PI * perUnit / 100.0;
    return bounds.at(unit.readingAt(channel, (percent + otherPercent) / 2.0)).stream()
        .map(b -> b.component(perUnit).in(channel.unit()).times(b.change(apart, wave)))
        .map(c -> c.named(c.source() + ", between both"))
        .toList();
  }

  /** The step of the meter, anew for each reading. */
  public List<Component> meterStep() {
    return meter
        .map(
            bounds -> {
              Channel c = bounds.channel();
              String name = meterRole.key() + " resolution";
              double perUnit = unit.percentPer(c);
              return List.of(
                  Component.rectangular(name, c.resolution() / 2.0, perUnit).in(c.unit()));
            })
        .orElse(List.of());
  }

  /** All of the meter alone at a position: where the signal plays no part. */
  public List<Component> meterAlone(double percent) {
    List<Component> components = new ArrayList<>(meterAccuracy(percent));
    components.addAll(meterStep());
    return components;
  }

  /** Why the meter alone can have no budget. */
  public Optional<String> meterLacking() {
    return meter.isEmpty()
        ? Optional.of("the bench file states no accuracy of the " + meterRole.key())
        : Optional.empty();
  }

  /**
   * What the meter alone adds to an instant that is read from a position.
   *
   * @param percent the position
   * @param perPercent how the measure changes with the position that is read
   */
  public List<Component> meterAccuracy(double percent, double perPercent) {
    return meterAccuracy(percent).stream().map(c -> c.inMeasure("%").times(perPercent)).toList();
  }

  /** The step of the source at a setpoint, anew each time that it is set. */
  public List<Component> sourceStep(double setpointPercent) {
    return source
        .map(
            bounds ->
                List.of(
                    Component.rectangular(
                            Role.SIGNAL_SOURCE.key() + " resolution",
                            bounds.channel().resolution() / 2.0,
                            unit.percentPerMilliampAt(Position.ofPercent(setpointPercent)))
                        .in("mA")))
        .orElse(List.of());
  }

  /** The steps of source, setpoint and meter at a setpoint: anew for each reading. */
  public List<Component> steps(double setpointPercent) {
    List<Component> components = new ArrayList<>(sourceStep(setpointPercent));
    components.addAll(digits.components(unit, setpointPercent));
    components.addAll(meterStep());
    return components;
  }
}
