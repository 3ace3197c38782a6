package org.benchstroke.simulator;

import java.util.List;
import java.util.function.DoubleSupplier;

/** A simulated loop meter that speaks SCPI. */
final class MeterInstrument implements ScpiInstrument {
  private final String identity;
  private final Specimen specimen;
  private final DoubleSupplier loop;

  /**
   * A meter.
   *
   * @param identity as *IDN? answers it
   * @param loop gives the current that flows, mA
   */
  MeterInstrument(String identity, Specimen specimen, DoubleSupplier loop) {
    this.identity = identity;
    this.specimen = specimen;
    this.loop = loop;
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
    return List.of(
        ScpiCommand.query(
            "MEASure:CURRent[:DC]",
            () -> SourceInstrument.amps(specimen.shown(loop.getAsDouble()))));
  }
}
