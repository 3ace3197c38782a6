package org.benchstroke.procedure;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import org.benchstroke.bench.toml.TomlSection;
import org.benchstroke.instrument.Role;
import org.benchstroke.quantity.Position;

/**
 * Supply: its voltage at rest, and how far it sags while the motor starts and runs.
 *
 * @param starts how often the motor starts, each way
 */
public record SupplyVoltage(int starts) implements TestSpec {
  static final String NAME = "supply";

  /** The name of the watch at rest in the record. */
  public static final String AT_REST = "supply at rest";

  private static final double REST_SECONDS = 5.0;

  /** Far enough that the motor comes to its speed and runs on. */
  private static final Position ONE = Position.ofPercent(35.0);

  private static final Position OTHER = Position.ofPercent(65.0);

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
    actions.add(moves.anywhere("supply start", ONE));
    actions.add(new Action.Hold(AT_REST, REST_SECONDS));
    for (int cycle = 1; cycle <= starts; cycle++) {
      actions.add(moves.approach("supply opening", ONE, OTHER, cycle, false));
      actions.add(moves.approach("supply closing", OTHER, ONE, cycle, false));
    }
    return actions;
  }
}
