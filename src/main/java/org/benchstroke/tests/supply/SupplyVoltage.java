package org.benchstroke.tests.supply;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import org.benchstroke.core.quantity.Position;
import org.benchstroke.core.toml.TomlSection;
import org.benchstroke.io.instrument.Role;
import org.benchstroke.judge.Location;
import org.benchstroke.judge.SupplyReadings;
import org.benchstroke.judge.TestKind;
import org.benchstroke.judge.TestResult;
import org.benchstroke.procedure.Action;
import org.benchstroke.procedure.Aim;
import org.benchstroke.procedure.Aim.Stroke.Way;
import org.benchstroke.procedure.Moves;
import org.benchstroke.procedure.TestSpec;

/**
 * Supply: its voltage at rest, and how far it sags while the motor starts and runs.
 *
 * @param starts how often the motor starts, each way
 */
public record SupplyVoltage(int starts) implements TestSpec {
  static final String NAME = "supply";

  /** Its line in the catalogue. */
  public static final TestKind<SupplyVoltage> KIND =
      new TestKind<>(
          NAME,
          SupplyVoltage.class,
          SupplyVoltage::read,
          (judged, spec, attempt) -> {
            SupplyReadings readings =
                new SupplyReadings(judged, attempt, Watch.AT_REST, Location.whole());
            return () -> TestResult.measures(readings.all());
          });

  private static final double REST_SECONDS = 5.0;

  /** Far enough that the motor comes to its speed and runs on. */
  private static final Position ONE = Position.ofPercent(35.0);

  private static final Position OTHER = Position.ofPercent(65.0);

  /** When nothing moves. */
  public enum Watch implements Aim {
    AT_REST;

    @Override
    public String words() {
      return "supply at rest";
    }
  }

  static SupplyVoltage read(TomlSection section) {
    return new SupplyVoltage(section.integer("starts", 1, 100));
  }

  @Override
  public String name() {
    return NAME;
  }

  @Override
  public Set<Role> needs() {
    return Set.of(Role.SUPPLY_METER);
  }

  @Override
  public List<Action> actions(Moves moves) {
    List<Action> actions = new ArrayList<>();
    actions.add(moves.leadIn("supply start", ONE));
    actions.add(new Action.Hold(Watch.AT_REST, REST_SECONDS));
    for (int cycle = 1; cycle <= starts; cycle++) {
      actions.add(
          moves.approach(
              new Aim.Stroke(NAME, Way.OPENING, cycle, false), ONE, OTHER, cycle, false));
      actions.add(
          moves.approach(
              new Aim.Stroke(NAME, Way.CLOSING, cycle, false), OTHER, ONE, cycle, false));
    }
    return actions;
  }
}
