package org.benchstroke.bench;

import java.util.ArrayList;
import java.util.List;
import org.benchstroke.instrument.Channel;
import org.benchstroke.instrument.Role;
import org.benchstroke.quantity.Current;
import org.benchstroke.quantity.Position;
import org.benchstroke.quantity.SignalRange;
import org.benchstroke.uncertainty.Component;

/**
 * What the bench's instruments add to the uncertainty of e = position − setpoint, in % of travel:
 * data sheet accuracies and resolutions as rectangular half-widths (JCGM 100:2008 4.3.7).
 * Stateless.
 */
public final class PositionBudget {
  private PositionBudget() {}

  /** Source and position transmitter at a setpoint. */
  public static List<Component> feedback(BenchFile bench, UnitType unit, Position setpoint) {
    List<Component> components = source(bench, unit, setpoint);
    Channel channel = channel(bench, Role.POSITION_TRANSMITTER);
    SignalRange range = unit.feedback();
    boolean current = channel.unit().equals("mA");
    double reading = current ? range.currentAt(setpoint).milliamps() : setpoint.percent();
    double sensitivity = current ? range.percentPerMilliamp() : 1.0;
    components.addAll(channel("position transmitter", channel, reading, sensitivity));
    return components;
  }

  /** Source and angle reference at a setpoint. */
  public static List<Component> stem(BenchFile bench, UnitType unit, Position setpoint) {
    List<Component> components = source(bench, unit, setpoint);
    double degrees = setpoint.percent() / 100.0 * unit.travelDegrees();
    double percentPerDegree = 100.0 / unit.travelDegrees();
    components.addAll(
        channel(
            "angle reference", channel(bench, Role.ANGLE_REFERENCE), degrees, percentPerDegree));
    return components;
  }

  private static List<Component> source(BenchFile bench, UnitType unit, Position setpoint) {
    Current current = unit.signal().currentAt(setpoint);
    return new ArrayList<>(
        channel(
            "signal source",
            channel(bench, Role.SIGNAL_SOURCE),
            current.milliamps(),
            unit.signal().percentPerMilliamp()));
  }

  private static List<Component> channel(
      String name, Channel channel, double reading, double sensitivity) {
    return List.of(
        Component.rectangular(
            name + " accuracy", channel.accuracy().halfWidthAt(reading), sensitivity),
        Component.rectangular(name + " resolution", channel.resolution() / 2.0, sensitivity));
  }

  private static Channel channel(BenchFile bench, Role role) {
    return bench.playing(role).orElseThrow().channels().get(role);
  }
}
