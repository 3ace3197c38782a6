package org.benchstroke.simulator;

import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.io.transport.Endpoint;

/** The bench around a simulated unit where no bench file is given. Stateless. */
public final class BuiltInBench {
  /** Where its signal source is reached, SCPI. */
  public static final Endpoint.Tcp SOURCE = new Endpoint.Tcp("simulated", 5025);

  /** Where its loop meter is reached, SCPI. */
  public static final Endpoint.Tcp LOOP_METER = new Endpoint.Tcp("simulated", 5026);

  /** Its position input, Modbus TCP unit 1, and its angle reference, unit 2. */
  public static final Endpoint.Tcp MODBUS = new Endpoint.Tcp("simulated", 502);

  private static final String INSTRUMENTS =
      """
      # Written for a simulated bench: unit, instruments and certificates are invented.
      kind = "bench"
      format = 1
      name = "Simulated bench: $NAME"
      place = "simulated"
      sample_period_ms = 100

      [[instrument]]
      name = "source"
      roles = ["signal source"]
      speaks = "scpi"
      address = "$SOURCE"
      reply_timeout_ms = 500
      maker = "Example Instruments"
      model = "LS24"
      serial = "900101"
      certificate = "SIM-0101"
      calibrated = 2026-01-15
      due = 2099-12-31
      [instrument.signal_source]
      accuracy = "±(0.02 % of reading + 0.002 mA)"
      resolution_mA = 0.001
      min_mA = 0
      max_mA = 24
      compliance_V = $VOLTS

      [[instrument]]
      name = "loop meter"
      roles = ["loop meter"]
      speaks = "scpi"
      address = "$LOOP_METER"
      reply_timeout_ms = 500
      maker = "Example Instruments"
      model = "LM6"
      serial = "900202"
      certificate = "SIM-0202"
      calibrated = 2026-01-15
      due = 2099-12-31
      [instrument.loop_meter]
      accuracy = "±(0.01 % of reading + 0.001 mA)"
      resolution_mA = 0.0001
      min_mA = 0
      max_mA = 30

      [[instrument]]
      name = "position input"
      roles = ["position transmitter", "switches", "motor power"]
      speaks = "modbus tcp"
      address = "$MODBUS"
      unit_id = 1
      reply_timeout_ms = 500
      serial = "900303"
      certificate = "SIM-0303"
      calibrated = 2026-01-15
      due = 2099-12-31
      [instrument.serial_number]
      table = "holding"
      address = 100
      type = "u32"
      [instrument.position_transmitter]
      accuracy = "±(0.02 % of reading + 0.001 mA)"
      resolution_mA = 0.001
      min_mA = 0
      max_mA = 24
      unit = "mA"
      table = "input"
      address = 0
      type = "f32"
      order = "ABCD"
      [instrument.switches.closed]
      table = "discrete"
      address = 0
      [instrument.switches.closed-auxiliary]
      table = "discrete"
      address = 1
      [instrument.switches.open-auxiliary]
      table = "discrete"
      address = 2
      [instrument.switches.open]
      table = "discrete"
      address = 3
      [instrument.motor_power]
      table = "coil"
      address = 0
      """;

  private static final String ANGLE_REFERENCE =
      """

      [[instrument]]
      name = "angle reference"
      roles = ["angle reference"]
      speaks = "modbus tcp"
      address = "$MODBUS"
      unit_id = 2
      reply_timeout_ms = 500
      serial = "900404"
      certificate = "SIM-0404"
      calibrated = 2026-01-15
      due = 2099-12-31
      [instrument.serial_number]
      table = "holding"
      address = 100
      type = "u32"
      [instrument.angle_reference]
      accuracy = "±0.05 °"
      resolution_deg = 0.01
      min_deg = -180
      max_deg = 360
      table = "input"
      address = 0
      type = "f32"
      order = "ABCD"
      """;

  private BuiltInBench() {}

  /** Its bench file; the angle reference is there if the simulation says so. */
  static String text(Simulation simulation) {
    String text = simulation.angleReference() ? INSTRUMENTS + ANGLE_REFERENCE : INSTRUMENTS;
    double volts = simulation.parameters().input().complianceVolts();
    return text.replace("$VOLTS", Numbers.plain(volts))
        .replace("$SOURCE", SOURCE.text())
        .replace("$LOOP_METER", LOOP_METER.text())
        .replace("$MODBUS", MODBUS.text())
        .replace("$NAME", BenchRewrite.escaped(simulation.name()));
  }
}
