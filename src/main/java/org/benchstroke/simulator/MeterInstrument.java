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
   * @param milliamps gives the current that flows, mA
   */
  static MeterInstrument loop(String identity, Specimen specimen, DoubleSupplier milliamps) {
    return new MeterInstrument(
        identity,
        List.of(
            ScpiCommand.query(
                "MEASure:CURRent[:DC]",
                () -> SourceInstrument.amps(specimen.shown(milliamps.getAsDouble())))));
  }

  /** A supply meter; its voltage, V, is direct or alternating as it is asked for. */
  static MeterInstrument supply(String identity, Specimen specimen, DoubleSupplier volts) {
    ScpiCommand.Getter shown = () -> ScpiNumber.text(specimen.shown(volts.getAsDouble()));
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
