package org.benchstroke.simulator;

import java.util.List;
import java.util.function.DoubleConsumer;

/** A simulated signal source that speaks SCPI: a current with an output switch. */
final class SourceInstrument implements ScpiInstrument {
  private final String identity;
  private final Specimen specimen;
  private final DoubleConsumer drive;
  private double setting;
  private boolean on;

  /**
   * A source with its output off.
   *
   * @param identity as *IDN? answers it
   * @param drive takes the current that it drives, mA
   */
  SourceInstrument(String identity, Specimen specimen, DoubleConsumer drive) {
    this.identity = identity;
    this.specimen = specimen;
    this.drive = drive;
  }

  @Override
  public String identity() {
    return identity;
  }

  @Override
  public void reset() {
    setting = 0.0;
    on = false;
    apply();
  }

  @Override
  public List<ScpiCommand> commands() {
    return List.of(
        ScpiCommand.setting("SOURce:CURRent[:LEVel]", this::set),
        ScpiCommand.query("SOURce:CURRent[:LEVel]", () -> amps(setting)),
        ScpiCommand.setting("OUTPut[:STATe]", this::output),
        ScpiCommand.query("OUTPut[:STATe]", () -> on ? "1" : "0"));
  }

  private void set(String text) throws ScpiError {
    double milliamps = ScpiParameters.milliamps(text);
    if (!specimen.reaches(milliamps)) {
      throw new ScpiError(ScpiError.Code.OUT_OF_RANGE);
    }
    setting = specimen.setting(milliamps);
    apply();
  }

  private void output(String text) throws ScpiError {
    on = ScpiParameters.onOff(text);
    apply();
  }

  private void apply() {
    drive.accept(on ? specimen.made(setting) : 0.0);
  }

  /** A current as an answer, in A. */
  static String amps(double milliamps) {
    return ScpiNumber.text(milliamps / 1000.0);
  }
}
