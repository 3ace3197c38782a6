package org.benchstroke.simulator;

import java.util.LinkedHashMap;
import java.util.Map;
import org.benchstroke.instrument.modbus.Register.Table;
import org.benchstroke.model.Truth;
import org.benchstroke.model.UnitModel;
import org.benchstroke.transport.Endpoint;

/**
 * A simulated unit with its instruments around it. The motor power relay is off at first. The same
 * simulation, times and bytes give the same answers. One thread at a time.
 */
public final class SimulatedBench {

  /** Where its instruments are reached. */
  public enum Port {
    /** The signal source, SCPI. */
    SOURCE("source"),
    /** The loop meter, SCPI. */
    LOOP_METER("loop meter"),
    /** The position input, Modbus TCP unit 1, and the angle reference, unit 2. */
    MODBUS("modbus");

    private final String key;

    Port(String key) {
      this.key = key;
    }

    /** The word for it in what people and programs read. */
    public String key() {
      return key;
    }
  }

  static final int POSITION_UNIT = 1;
  static final int ANGLE_UNIT = 2;
  static final int VALUE_ADDRESS = 0;
  static final int SERIAL_ADDRESS = 100;

  private final Simulation simulation;
  private final UnitModel unit;
  private final SourceInstrument source;
  private final MeterInstrument meter;
  private final Map<Integer, RegisterMap> modbus = new LinkedHashMap<>();

  public SimulatedBench(Simulation simulation) {
    long seed = simulation.seed();
    this.simulation = simulation;
    this.unit = new UnitModel(simulation.parameters(), seed);
    this.source = new SourceInstrument(specimen(DataSheet.SOURCE), unit::command);
    this.meter = new MeterInstrument(specimen(DataSheet.LOOP_METER), unit::loopMilliamps);
    modbus.put(POSITION_UNIT, positionInput(specimen(DataSheet.POSITION_INPUT)));
    if (simulation.angleReference()) {
      modbus.put(ANGLE_UNIT, angleReference(specimen(DataSheet.ANGLE_REFERENCE)));
    }
  }

  public Simulation simulation() {
    return simulation;
  }

  /** Steps the unit up to the instant, ns since the bench's beginning. */
  public void advanceTo(long nanos) {
    unit.advanceTo(nanos);
  }

  /** What is really so, which no instrument can see. */
  public Truth truth() {
    return unit.truth();
  }

  /** A new connection to a port. */
  public ByteSession connect(Port port) {
    return switch (port) {
      case SOURCE -> new ScpiSession(source);
      case LOOP_METER -> new ScpiSession(meter);
      case MODBUS -> new ModbusTcpSession(modbus);
    };
  }

  /**
   * The bench file that fits this bench.
   *
   * @param addresses where each port is reached
   * @param timeScale bench seconds per wall second
   */
  public String benchToml(Map<Port, Endpoint.Tcp> addresses, double timeScale) {
    return BenchText.of(simulation, addresses, timeScale);
  }

  /** Each specimen has a seed of its own, so that one more instrument changes no other. */
  private DataSheet.Specimen specimen(DataSheet sheet) {
    return sheet.specimen(simulation.seed() * 31 + Long.parseLong(sheet.serial()));
  }

  private RegisterMap positionInput(DataSheet.Specimen specimen) {
    return new RegisterMap()
        .add(Table.INPUT, VALUE_ADDRESS, 2, () -> f32(specimen.shown(unit.feedbackMilliamps())))
        .add(Table.DISCRETE, 0, SimulatedSwitches.COUNT, () -> SimulatedSwitches.read(unit))
        .add(
            Table.COIL,
            0,
            1,
            () -> new int[] {unit.motorPower() ? 1 : 0},
            (index, value) -> unit.motorPower(value != 0))
        .add(Table.HOLDING, SERIAL_ADDRESS, 2, () -> serial(specimen));
  }

  private RegisterMap angleReference(DataSheet.Specimen specimen) {
    return new RegisterMap()
        .add(Table.INPUT, VALUE_ADDRESS, 2, () -> f32(specimen.shown(unit.stemDegrees())))
        .add(Table.HOLDING, SERIAL_ADDRESS, 2, () -> serial(specimen));
  }

  private static int[] f32(double value) {
    return RegisterMap.words(Float.floatToIntBits((float) value));
  }

  private static int[] serial(DataSheet.Specimen specimen) {
    return RegisterMap.words(Integer.parseUnsignedInt(specimen.sheet().serial()));
  }
}
