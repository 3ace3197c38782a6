package org.benchstroke.simulator;

import java.util.List;
import java.util.function.DoubleSupplier;

/** The loop meter of the simulated bench. */
final class MeterInstrument implements ScpiInstrument {
  private final DataSheet.Specimen specimen;
  private final DoubleSupplier loop;

  /**
   * A meter.
   *
   * @param loop gives the current that flows, mA
   */
  MeterInstrument(DataSheet.Specimen specimen, DoubleSupplier loop) {
    this.specimen = specimen;
    this.loop = loop;
  }

  @Override
  public String identity() {
    return specimen.sheet().identity();
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
