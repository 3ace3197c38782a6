package org.benchstroke.procedure;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import org.benchstroke.bench.Practice;
import org.benchstroke.bench.UnitType;
import org.benchstroke.quantity.Numbers;
import org.benchstroke.quantity.Position;

/** Turns a procedure into what is done to a unit of a type: a pure function of the two. */
public final class Expansion {
  private static final Position CLOSED = Position.ofPercent(0.0);
  private static final Position OPEN = Position.ofPercent(100.0);

  private final UnitType unit;
  private final double windowSeconds;

  private Expansion(UnitType unit, double samplePeriodSeconds) {
    this.unit = unit;
    this.windowSeconds = unit.restWindowSeconds(samplePeriodSeconds);
  }

  /**
   * All the tests of the procedure, in order.
   *
   * @param samplePeriodSeconds the bench's sample period, s: it bears on the durations only
   */
  public static List<PlannedTest> of(
      Procedure procedure, UnitType unit, double samplePeriodSeconds) {
    Expansion expansion = new Expansion(unit, samplePeriodSeconds);
    List<PlannedTest> planned = new ArrayList<>();
    for (TestSpec test : procedure.tests()) {
      planned.add(new PlannedTest(planned.size(), test, expansion.actions(test)));
    }
    return planned;
  }

  private List<Action> actions(TestSpec test) {
    if (test instanceof TestSpec.Exercise exercise) {
      return strokes("exercise", exercise.strokes());
    }
    if (test instanceof TestSpec.StrokeTime stroke) {
      return strokes("stroke", stroke.repeats());
    }
    if (test instanceof TestSpec.TravelError travel) {
      return travel(travel);
    }
    return loss((TestSpec.SignalLoss) test);
  }

  private List<Action> strokes(String name, int count) {
    List<Action> actions = new ArrayList<>();
    actions.add(anywhere(name + " start", CLOSED));
    for (int cycle = 1; cycle <= count; cycle++) {
      actions.add(approach(name + " opening", CLOSED, OPEN, cycle, false));
      actions.add(approach(name + " closing", OPEN, CLOSED, cycle, false));
    }
    return actions;
  }

  /** Up through the points and down again; the lowest is approached from above like its equals. */
  private List<Action> travel(TestSpec.TravelError test) {
    List<Position> points = test.points();
    Position lowest = points.get(0);
    Position above = points.get(1);
    List<Action> actions = new ArrayList<>();
    actions.add(anywhere("travel start", above));
    actions.add(approach("travel settle", above, lowest, 0, true));
    for (int cycle = 1; cycle <= test.cycles(); cycle++) {
      for (int i = 1; i < points.size(); i++) {
        actions.add(travel(points.get(i - 1), points.get(i), cycle));
      }
      for (int i = points.size() - 2; i >= 0; i--) {
        actions.add(travel(points.get(i + 1), points.get(i), cycle));
      }
    }
    return actions;
  }

  private Action travel(Position from, Position to, int cycle) {
    String direction = to.percent() > from.percent() ? "up" : "down";
    String point = "travel " + Numbers.plain(to.percent()) + " " + direction;
    return approach(point, from, to, cycle, true);
  }

  private List<Action> loss(TestSpec.SignalLoss test) {
    List<Action> actions = new ArrayList<>();
    Practice practice = unit.practice();
    double farther = Math.max(test.at().percent(), 100.0 - test.at().percent());
    double travel = unit.travelSeconds(farther);
    double delay = unit.signalLoss().delaySeconds();
    for (TestSpec.SignalLoss.Way way : test.ways()) {
      actions.add(anywhere("loss start", test.at()));
      actions.add(
          new Action.Lose(
              way,
              "loss " + way.key(),
              delay + travel + practice.restEarliestSeconds(),
              delay + 2.0 * travel + practice.restTimeoutSeconds(),
              delay + travel + practice.restEarliestSeconds() + windowSeconds));
    }
    actions.add(anywhere("loss recovery", test.at()));
    return actions;
  }

  private Action anywhere(String point, Position to) {
    return new Action.Approach(point, OptionalDouble.empty(), to, 0, false, seconds(50.0));
  }

  private Action approach(String point, Position from, Position to, int cycle, boolean clean) {
    double change = to.percent() - from.percent();
    OptionalDouble start = OptionalDouble.of(from.percent());
    return new Action.Approach(point, start, to, cycle, clean, seconds(change));
  }

  private double seconds(double changePercent) {
    double travel = unit.travelSeconds(changePercent);
    return Math.max(travel + unit.practice().restEarliestSeconds(), travel + windowSeconds);
  }
}
