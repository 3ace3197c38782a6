package org.benchstroke.simulator;

import java.util.List;
import java.util.function.DoubleSupplier;

/** A simulated meter that speaks SCPI: of the loop's current or of the supply's voltage. */
final class MeterInstrument implements ScpiInstrument {
  private final String identity;
  private final List<ScpiCommand> commands;

  private MeterInstrument(String identity, List<ScpiCommand> commands) {
    this.identity = identity;
    this.commands = commands;
  }

  /**
   * A loop meter.
   *
   * @param identity as *IDN? answers it
   * @param shown gives the current that it shows, mA
   */
  static MeterInstrument loop(String identity, DoubleSupplier shown) {
    return new MeterInstrument(
        identity,
        List.of(
            ScpiCommand.query(
                "MEASure:CURRent[:DC]", () -> SourceInstrument.amps(shown.getAsDouble()))));
  }

  /** A supply meter; the voltage that it shows, V, is direct or alternating as it is asked for. */
  static MeterInstrument supply(String identity, DoubleSupplier volts) {
    ScpiCommand.Getter shown = () -> ScpiNumber.text(volts.getAsDouble());
    return new MeterInstrument(
        identity,
        List.of(
            ScpiCommand.query("MEASure:VOLTage[:DC]", shown),
            ScpiCommand.query("MEASure:VOLTage:AC", shown)));
  }

  @Override
  public String identity() {
    return identity;
  }

  @Override
  public void reset() {
    // It has no settings.
  }

  @Override
  public List<ScpiCommand> commands() {
    return commands;
  }
}
