package org.benchstroke.tests.power;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.benchstroke.core.quantity.Position;
import org.benchstroke.core.toml.TomlSection;
import org.benchstroke.io.instrument.Role;
import org.benchstroke.judge.TestKind;
import org.benchstroke.procedure.Action;
import org.benchstroke.procedure.Aim;
import org.benchstroke.procedure.Caution;
import org.benchstroke.procedure.Moves;
import org.benchstroke.procedure.TestSpec;
import org.benchstroke.unit.Practice;

/**
 * What the unit does when its motor supply fails and returns.
 *
 * @param at where it stands then, or what it passes
 * @param awaySeconds how long the supply is off, s
 * @param moments whether it is at rest or moving
 */
public record PowerLoss(Position at, double awaySeconds, List<Moment> moments) implements TestSpec {
  static final String NAME = "power loss";

  /** Its line in the catalogue. */
  public static final TestKind<PowerLoss> KIND =
      new TestKind<>(NAME, PowerLoss.class, PowerLoss::read, PowerLossMeasures::new);

  /**
   * The move after the return: a unit that stays dead stands at its setpoint, too.
   *
   * @param after which cut
   */
  public record Moved(Moment after) implements Aim {
    @Override
    public String words() {
      return after.words() + ", moved";
    }
  }

  /** A moving unit comes from so far below the place and is on its way to as far above, %. */
  private static final double WAY_PERCENT = 20.0;

  public PowerLoss {
    moments = List.copyOf(moments);
  }

  /** When the supply fails. */
  public enum Moment implements Aim {
    AT_REST("at rest"),
    MOVING("moving");

    private final String key;

    Moment(String key) {
      this.key = key;
    }

    public String key() {
      return key;
    }

    @Override
    public String words() {
      return "power loss " + key;
    }
  }

  static PowerLoss read(TomlSection section) {
    Map<String, Moment> moments = new LinkedHashMap<>();
    for (Moment moment : Moment.values()) {
      moments.put(moment.key(), moment);
    }
    return new PowerLoss(
        Position.ofPercent(section.number("at_pct", 25, 75, "% of travel")),
        section.number("away_s", 2, 600, "s"),
        section.choices("moments", moments));
  }

  @Override
  public String name() {
    return NAME;
  }

  @Override
  public Optional<Caution> caution() {
    return Optional.of(Caution.POWER_LOSS);
  }

  @Override
  public boolean cutsSupply() {
    return true;
  }

  @Override
  public Set<Role> needs() {
    return Set.of(Role.MOTOR_POWER);
  }

  @Override
  public List<Action> actions(Moves moves) {
    List<Action> actions = new ArrayList<>();
    for (Moment moment : moments) {
      boolean moving = moment == Moment.MOVING;
      Position start = Position.ofPercent(at.percent() - (moving ? WAY_PERCENT : 0.0));
      Position end = Position.ofPercent(at.percent() + (moving ? WAY_PERCENT : 0.0));
      actions.add(moves.leadIn("power start", start));
      actions.add(cut(moment, moving ? Optional.of(end) : Optional.empty(), moves));
      if (!moving) {
        Position next = Position.ofPercent(at.percent() + WAY_PERCENT);
        actions.add(moves.approach(new Moved(moment), at, next, 0, false));
      }
    }
    return actions;
  }

  private Action cut(Moment moment, Optional<Position> towards, Moves moves) {
    Practice practice = moves.unit().practice();
    double travel = moves.unit().travelSeconds(towards.isPresent() ? 2.0 * WAY_PERCENT : 0.0);
    return new Action.Cut(
        moment,
        at,
        towards,
        awaySeconds,
        travel + practice.restEarliestSeconds(),
        2.0 * travel + practice.restTimeoutSeconds(),
        awaySeconds + moves.seconds(towards.isPresent() ? 2.0 * WAY_PERCENT : 0.0));
  }
}
