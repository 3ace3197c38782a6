package org.benchstroke.tests.switches;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import org.benchstroke.core.quantity.Angle;
import org.benchstroke.core.quantity.Current;
import org.benchstroke.core.quantity.Position;
import org.benchstroke.core.toml.TomlSection;
import org.benchstroke.io.instrument.LimitSwitch;
import org.benchstroke.io.instrument.Role;
import org.benchstroke.judge.TestKind;
import org.benchstroke.procedure.Action;
import org.benchstroke.procedure.Aim;
import org.benchstroke.procedure.Caution;
import org.benchstroke.procedure.Moves;
import org.benchstroke.procedure.TestSpec;
import org.benchstroke.unit.UnitType;

/**
 * Switches: at which angle each trips and resets. The setpoint creeps past the switches of one end
 * and back, then past those of the other.
 *
 * @param creepDegreesPerSecond how fast the setpoint moves, °/s
 * @param marginDegrees it sets out so far inside the innermost switch of an end, °
 * @param beyondPercent the setpoint goes so far beyond the ends of travel, %; empty for as far as
 *     the unit type says that the signal is not taken for lost
 * @param cycles how often it passes each end
 */
public record Switches(
    double creepDegreesPerSecond, double marginDegrees, OptionalDouble beyondPercent, int cycles)
    implements TestSpec {
  static final String NAME = "switches";

  /** Its line in the catalogue. */
  public static final TestKind<Switches> KIND =
      new TestKind<>(NAME, Switches.class, Switches::read, SwitchMeasures::new);

  /** An end of travel with its switches. */
  public enum End {
    CLOSED("closed end", LimitSwitch.CLOSED, LimitSwitch.CLOSED_AUXILIARY),
    OPEN("open end", LimitSwitch.OPEN, LimitSwitch.OPEN_AUXILIARY);

    private final String words;
    private final LimitSwitch outer;
    private final LimitSwitch auxiliary;

    End(String words, LimitSwitch outer, LimitSwitch auxiliary) {
      this.words = words;
      this.outer = outer;
      this.auxiliary = auxiliary;
    }

    public String words() {
      return words;
    }

    /** The switch that cuts the motor. */
    public LimitSwitch outer() {
      return outer;
    }

    /** The one that signals the end before. */
    public LimitSwitch auxiliary() {
      return auxiliary;
    }
  }

  /**
   * One creep past the switches of an end.
   *
   * @param end the end
   * @param towards whether towards it, or back
   * @param cycle from 0
   */
  public record Creep(End end, boolean towards, int cycle) implements Aim {
    @Override
    public String words() {
      return "creep " + end.words() + (towards ? ", towards" : ", back");
    }
  }

  static Switches read(TomlSection section) {
    return new Switches(
        section.number("creep_deg_per_s", 0.05, 1.0, "°/s"),
        section.number("margin_deg", 0.5, 20, "°"),
        section.optionalNumber("beyond_pct", 0, 5, "% of travel"),
        section.integer("cycles", 1, 10));
  }

  @Override
  public String name() {
    return NAME;
  }

  @Override
  public Optional<Caution> caution() {
    return Optional.of(Caution.END_STOPS);
  }

  @Override
  public List<String> notes(UnitType unit) {
    List<String> notes = new ArrayList<>();
    if (unit.switches().isEmpty()) {
      notes.add("Test \"" + NAME + "\" has no result: the unit type states no switches_deg.");
    }
    for (End end : End.values()) {
      Current asked = unit.currentAt(outside(end, unit));
      if (asked.compareTo(unit.signalLoss().holdsMilliamps()) < 0) {
        notes.add(
            "Test \""
                + NAME
                + "\" asks for "
                + asked
                + ", which is below holds_mA: the unit may take the signal for lost there.");
      }
    }
    return notes;
  }

  @Override
  public Set<Role> needs() {
    return Set.of(Role.SWITCHES);
  }

  /**
   * Each cycle sets out a part of a dead band further inside: a unit that moves in steps stops
   * elsewhere each time, and its stops close in on the angle of a switch.
   */
  @Override
  public List<Action> actions(Moves moves) {
    List<Action> actions = new ArrayList<>();
    for (End end : End.values()) {
      OptionalDouble innermost = innermostPercent(moves.unit(), end);
      double inwards = end == End.CLOSED ? 1.0 : -1.0;
      for (int cycle = 0; cycle < cycles && innermost.isPresent(); cycle++) {
        double shift = moves.unit().deadBandPercent() * cycle / cycles;
        double margin = marginDegrees / moves.unit().travelDegrees() * 100.0;
        double inside = innermost.getAsDouble() + inwards * (margin + shift);
        actions.addAll(creep(end, cycle, Position.ofPercent(inside), moves));
      }
    }
    return actions;
  }

  private List<Action> creep(End end, int cycle, Position inside, Moves moves) {
    Position outside = outside(end, moves.unit());
    double change = Math.abs(inside.percent() - outside.percent());
    double seconds = change / 100.0 * moves.unit().travelDegrees() / creepDegreesPerSecond;
    return List.of(
        moves.leadIn("creep start", inside),
        new Action.Ramp(new Creep(end, true, cycle), inside, outside, seconds),
        moves.leadIn("creep turn", outside),
        new Action.Ramp(new Creep(end, false, cycle), outside, inside, seconds));
  }

  /** The furthest setpoint. */
  Position outside(End end, UnitType unit) {
    double beyond = beyondPercent.orElse(unit.beyondPercent());
    return Position.ofPercent(end == End.CLOSED ? -beyond : 100.0 + beyond);
  }

  /** Where the innermost switch of an end is set, % of travel; empty if none is stated. */
  private static OptionalDouble innermostPercent(UnitType unit, End end) {
    return List.of(end.outer(), end.auxiliary()).stream()
        .filter(unit.switches()::containsKey)
        .map(unit.switches()::get)
        .mapToDouble(Angle::degrees)
        .map(degrees -> degrees / unit.travelDegrees() * 100.0)
        .reduce(end == End.CLOSED ? Math::max : Math::min);
  }
}
