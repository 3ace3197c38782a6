package org.benchstroke.procedure;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.benchstroke.core.quantity.Position;
import org.benchstroke.core.toml.TomlSection;
import org.benchstroke.unit.Practice;
import org.benchstroke.unit.UnitType;

/**
 * What the unit does when the signal gets lost; once for each way of losing it.
 *
 * @param at where it stands before
 * @param ways the ways, in order
 */
public record SignalLoss(Position at, List<Way> ways) implements TestSpec {
  static final String NAME = "signal loss";

  public SignalLoss {
    ways = List.copyOf(ways);
  }

  /** What follows the last loss. */
  public enum Return implements Aim {
    RECOVERY;

    @Override
    public String words() {
      return "loss recovery";
    }
  }

  /** A way of losing the signal. */
  public enum Way implements Aim {
    /** A low signal that is still a signal: the unit must hold or follow it, not fail. */
    LOW("low"),
    /** A signal so low that it counts as lost. */
    LOST("lost"),
    /** No current, but the loop closed. */
    ZERO("zero"),
    /** A signal above the range that counts as lost. */
    HIGH("high"),
    /** The loop open. */
    OPEN_LOOP("open loop");

    private final String key;

    Way(String key) {
      this.key = key;
    }

    public String key() {
      return key;
    }

    @Override
    public String words() {
      return "loss " + key;
    }

    /** The name in the record of the check that says why a bench could not do it. */
    public String check() {
      return "signal loss: " + key;
    }
  }

  static SignalLoss read(TomlSection section) {
    Map<String, Way> ways = new LinkedHashMap<>();
    for (Way way : Way.values()) {
      ways.put(way.key(), way);
    }
    double at = section.number("at_pct", 5, 95, "% of travel");
    return new SignalLoss(Position.ofPercent(at), section.choices("ways", ways));
  }

  @Override
  public String name() {
    return NAME;
  }

  @Override
  public List<Action> actions(Moves moves) {
    List<Action> actions = new ArrayList<>();
    for (Way way : ways) {
      actions.add(moves.leadIn("loss start", at));
      actions.add(lose(way, moves));
    }
    actions.add(moves.anywhere(Return.RECOVERY, at));
    return actions;
  }

  private Action lose(Way way, Moves moves) {
    UnitType unit = moves.unit();
    Practice practice = unit.practice();
    double travel = unit.travelSeconds(Math.max(at.percent(), 100.0 - at.percent()));
    double delay = unit.signalLoss().delaySeconds();
    double earliest = delay + travel + practice.restEarliestSeconds();
    double timeout = delay + 2.0 * travel + practice.restTimeoutSeconds();
    double nominal = earliest + moves.windowSeconds();
    return new Action.Lose(way, earliest, timeout, nominal);
  }
}
