package org.benchstroke.tests.loss;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.benchstroke.core.quantity.Position;
import org.benchstroke.core.toml.TomlSection;
import org.benchstroke.imported.TestInFile;
import org.benchstroke.judge.TestKind;
import org.benchstroke.procedure.Action;
import org.benchstroke.procedure.Aim;
import org.benchstroke.procedure.Caution;
import org.benchstroke.procedure.LossWay;
import org.benchstroke.procedure.Moves;
import org.benchstroke.procedure.TestSpec;
import org.benchstroke.unit.Practice;
import org.benchstroke.unit.UnitType;

/**
 * What the unit does when the signal gets lost; once for each way of losing it.
 *
 * @param at where it stands before
 * @param ways the ways, in order
 */
public record SignalLoss(Position at, List<LossWay> ways) implements TestSpec {
  static final String NAME = "signal loss";

  /** Its line in the catalogue. */
  public static final TestKind<SignalLoss> KIND =
      new TestKind<>(NAME, SignalLoss.class, SignalLoss::read, LossMeasures::new);

  /** How it is found in files of others. */
  public static final TestInFile<SignalLoss> IN_FILE =
      TestInFile.of(SignalLoss.class, LossInFile::finder);

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

  static SignalLoss read(TomlSection section) {
    Map<String, LossWay> ways = new LinkedHashMap<>();
    for (LossWay way : LossWay.values()) {
      ways.put(way.key(), way);
    }
    double at = section.number("at_pct", 5, 95, "% of travel");
    return new SignalLoss(Position.ofPercent(at), section.choices("ways", ways));
  }

  @Override
  public Optional<Caution> caution() {
    return Optional.of(Caution.SIGNAL_LOSS);
  }

  @Override
  public String name() {
    return NAME;
  }

  @Override
  public List<Action> actions(Moves moves) {
    List<Action> actions = new ArrayList<>();
    for (LossWay way : ways) {
      actions.add(moves.leadIn("loss start", at));
      actions.add(lose(way, moves));
    }
    actions.add(moves.anywhere(Return.RECOVERY, at));
    return actions;
  }

  private Action lose(LossWay way, Moves moves) {
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
