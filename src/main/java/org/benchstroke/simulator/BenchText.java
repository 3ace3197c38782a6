package org.benchstroke.simulator;

import java.util.Map;
import org.benchstroke.instrument.LimitSwitch;
import org.benchstroke.quantity.Numbers;
import org.benchstroke.simulator.SimulatedBench.Port;
import org.benchstroke.transport.Endpoint;

/** Writes the bench file that fits a simulated bench. */
final class BenchText {
  private static final double USUAL_PERIOD_MILLIS = 100.0;

  /**
   * The shortest sample period that a busy computer keeps, ms of wall time: at 20 × real time a
   * stall of 40 ms would otherwise be a gap of eight samples.
   */
  private static final double SHORTEST_WALL_MILLIS = 12.5;

  private final StringBuilder text = new StringBuilder();

  private BenchText() {}

  static String of(Simulation simulation, Map<Port, Endpoint.Tcp> addresses, double timeScale) {
    BenchText bench = new BenchText();
    bench.line("# Written for a simulated bench: unit, instruments and certificates are invented.");
    bench.line("kind = \"bench\"");
    bench.line("format = 1");
    bench.line("name = " + quoted("Simulated bench: " + simulation.name()));
    bench.line("place = \"simulated\"");
    bench.line("sample_period_ms = " + samplePeriodMillis(timeScale));
    bench.line("");
    bench.line("[simulation]");
    bench.line("shows = " + quoted(simulation.shows()));
    bench.line("time_scale = " + Numbers.plain(timeScale));
    bench.source(addresses.get(Port.SOURCE), simulation);
    bench.meter(addresses.get(Port.LOOP_METER));
    bench.position(addresses.get(Port.MODBUS));
    if (simulation.angleReference()) {
      bench.angle(addresses.get(Port.MODBUS));
    }
    return bench.text.toString();
  }

  private static long samplePeriodMillis(double timeScale) {
    return Math.round(Math.max(USUAL_PERIOD_MILLIS, SHORTEST_WALL_MILLIS * timeScale));
  }

  private void source(Endpoint.Tcp address, Simulation simulation) {
    instrument("source", "\"signal source\"", "scpi", address, DataSheet.SOURCE);
    identity(DataSheet.SOURCE);
    channel("signal_source", DataSheet.SOURCE);
    double volts = simulation.parameters().input().complianceVolts();
    line("compliance_V = " + Numbers.plain(volts));
  }

  private void meter(Endpoint.Tcp address) {
    instrument("loop meter", "\"loop meter\"", "scpi", address, DataSheet.LOOP_METER);
    identity(DataSheet.LOOP_METER);
    channel("loop_meter", DataSheet.LOOP_METER);
  }

  private void position(Endpoint.Tcp address) {
    String roles = "\"position transmitter\", \"switches\", \"motor power\"";
    instrument("position input", roles, "modbus tcp", address, DataSheet.POSITION_INPUT);
    modbus(SimulatedBench.POSITION_UNIT);
    channel("position_transmitter", DataSheet.POSITION_INPUT);
    line("unit = \"mA\"");
    value();
    for (LimitSwitch each : SimulatedSwitches.WIRED) {
      line("[instrument.switches." + each.key() + "]");
      register("discrete", SimulatedSwitches.WIRED.indexOf(each));
    }
    line("[instrument.motor_power]");
    register("coil", 0);
  }

  private void angle(Endpoint.Tcp address) {
    instrument(
        "angle reference", "\"angle reference\"", "modbus tcp", address, DataSheet.ANGLE_REFERENCE);
    modbus(SimulatedBench.ANGLE_UNIT);
    channel("angle_reference", DataSheet.ANGLE_REFERENCE);
    value();
  }

  private void instrument(
      String name, String roles, String speaks, Endpoint.Tcp address, DataSheet sheet) {
    line("");
    line("[[instrument]]");
    line("name = " + quoted(name));
    line("roles = [" + roles + "]");
    line("speaks = " + quoted(speaks));
    line("address = " + quoted(address.text()));
    line("reply_timeout_ms = 500");
    line("serial = " + quoted(sheet.serial()));
    line("certificate = " + quoted(sheet.certificate()));
    line("calibrated = 2026-01-15");
    line("due = 2027-12-31");
  }

  /** What *IDN? answers; a Modbus module has no way of telling it. */
  private void identity(DataSheet sheet) {
    line("maker = " + quoted(DataSheet.MAKER));
    line("model = " + quoted(sheet.model()));
  }

  private void modbus(int unitId) {
    line("unit_id = " + unitId);
    line("[instrument.serial_number]");
    register("holding", SimulatedBench.SERIAL_ADDRESS);
    line("type = \"u32\"");
  }

  private void channel(String table, DataSheet sheet) {
    line("[instrument." + table + "]");
    line("accuracy = " + quoted(sheet.accuracyText()));
    line("resolution_" + sheet.unit() + " = " + Numbers.plain(sheet.resolution()));
    line("min_" + sheet.unit() + " = " + Numbers.plain(sheet.low()));
    line("max_" + sheet.unit() + " = " + Numbers.plain(sheet.high()));
  }

  private void value() {
    register("input", SimulatedBench.VALUE_ADDRESS);
    line("type = \"f32\"");
    line("order = \"ABCD\"");
  }

  private void register(String table, int address) {
    line("table = " + quoted(table));
    line("address = " + address);
  }

  private void line(String line) {
    text.append(line).append('\n');
  }

  private static String quoted(String value) {
    String escaped =
        value.replace("\\", "\\\\").replace("\"", "\\\"").replace("\n", "\\n").replace("\r", "");
    return '"' + escaped + '"';
  }
}
