package org.benchstroke.setup;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.benchstroke.bench.BenchFile;
import org.benchstroke.bench.InstrumentBounds;
import org.benchstroke.core.quantity.Angle;
import org.benchstroke.core.uncertainty.Budget;
import org.benchstroke.core.uncertainty.Component;
import org.benchstroke.io.instrument.LimitSwitch;
import org.benchstroke.io.instrument.Reading;
import org.benchstroke.io.instrument.Role;

/**
 * At which angle a switch changed, and how uncertain that is. Between two looks at the switch the
 * stem turns from one angle to another, and the change may be anywhere between: the middle is its
 * best value, half the way a rectangular bound (JCGM 100:2008 4.3.7). At the speed of the hand each
 * doubt of an instant is one of the angle, too: half of each transaction, and the bounce of the
 * contact. To that comes what the reference itself may be wrong by. Immutable; any thread.
 */
final class SwitchAngle {
  /** A contact bounces no longer, s. Common practice, no source. */
  private static final double BOUNCE_SECONDS = 0.005;

  private final Optional<InstrumentBounds> bounds;

  SwitchAngle(BenchFile bench, LocalDate day) {
    this.bounds = InstrumentBounds.of(bench, Role.ANGLE_REFERENCE, Optional.of(day));
  }

  /**
   * A change, with its budget.
   *
   * @param edge its figures
   * @param components what makes it uncertain, °
   */
  record Found(Edge edge, List<Component> components) {}

  /**
   * Of a change between two looks.
   *
   * @param before the last look before the change, with an angle
   * @param at the first one after it, likewise
   * @param after the look after that, whose angle bounds the one when the switch was read
   */
  Found between(Look before, Look at, Look after, boolean made) {
    Reading<Map<LimitSwitch, Boolean>> first = before.switches().orElseThrow();
    Reading<Map<LimitSwitch, Boolean>> second = at.switches().orElseThrow();
    double from = angleAt(first.stampNanos(), before, at);
    double to = angleAt(second.stampNanos(), at, after);
    double seconds = Math.max(1e-9, (second.stampNanos() - first.stampNanos()) / 1e9);
    double half = Math.abs(to - from) / 2.0;
    double speed = 2.0 * half / seconds;
    double degrees = corrected((from + to) / 2.0);
    List<Component> components = new ArrayList<>();
    components.add(Component.rectangular("between two looks", half, 1.0));
    components.add(Component.rectangular("instant of the switch", halfSeconds(second), speed));
    components.add(
        Component.rectangular(
            "instant of the angle", halfSeconds(at.angle().orElseThrow()), speed));
    components.add(Component.rectangular("bounce", BOUNCE_SECONDS, speed));
    components.addAll(reference(degrees));
    return found(made, false, degrees, half, speed, components);
  }

  /** Of a change while the stem stands, or one that a person heard just now. */
  Found standing(Look at, boolean made, boolean byCam, double half) {
    double degrees = corrected(at.angle().orElseThrow().value().degrees());
    List<Component> components = new ArrayList<>();
    components.add(Component.rectangular("while it changed", half, 1.0));
    components.addAll(reference(degrees));
    return found(made, byCam, degrees, half, 0.0, components);
  }

  /** The difference of two angles: what both have in common of the reference cancels. */
  Budget difference(Found one, Found other) {
    List<Component> components = new ArrayList<>();
    for (Component each : one.components()) {
      components.add(each.named("first: " + each.source()));
    }
    for (Component each : other.components()) {
      components.add(each.named("second: " + each.source()).times(-1.0));
    }
    return new Budget("°", components);
  }

  private Found found(
      boolean made,
      boolean byCam,
      double degrees,
      double half,
      double speed,
      List<Component> components) {
    double expanded = bounds.isEmpty() ? 0.0 : new Budget("°", components).expand().half();
    return new Found(
        new Edge(made, byCam, degrees, half, expanded, speed), List.copyOf(components));
  }

  private List<Component> reference(double degrees) {
    List<Component> components = new ArrayList<>();
    bounds.ifPresent(
        b -> {
          b.at(degrees).forEach(bound -> components.add(bound.component(1.0)));
          components.add(
              Component.rectangular("step of the reference", b.channel().resolution() / 2.0, 1.0));
        });
    return components;
  }

  private double corrected(double degrees) {
    return degrees + bounds.map(b -> b.channel().correctionAt(degrees)).orElse(0.0);
  }

  private static double halfSeconds(Reading<?> reading) {
    return (reading.answeredNanos() - reading.askedNanos()) / 2e9;
  }

  /** By the straight line between two looks' angles. */
  private static double angleAt(long nanos, Look one, Look other) {
    Reading<Angle> a = one.angle().orElseThrow();
    Reading<Angle> b = other.angle().orElseThrow();
    double span = b.stampNanos() - a.stampNanos();
    double share = span <= 0 ? 0.0 : (nanos - a.stampNanos()) / span;
    return a.value().degrees() + share * (b.value().degrees() - a.value().degrees());
  }
}
