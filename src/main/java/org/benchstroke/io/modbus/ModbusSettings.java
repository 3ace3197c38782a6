package org.benchstroke.io.modbus;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import org.benchstroke.core.quantity.SignalRange;
import org.benchstroke.io.instrument.Channel;
import org.benchstroke.io.instrument.Language;
import org.benchstroke.io.instrument.LimitSwitch;
import org.benchstroke.io.instrument.Role;
import org.benchstroke.io.instrument.Talk;

/**
 * The registers of a Modbus instrument as a bench file names them. Immutable.
 *
 * @param language {@link #TCP} or {@link #RTU}
 * @param unitId its address, 0..255 (1..247 on a line)
 * @param registers the value of each role that reads or switches one
 * @param switches the inputs that switches are wired to
 * @param serialNumber where it keeps its serial number, if anywhere
 * @param source how the signal source is written, if it plays one
 * @param keepAlive what its watchdog wants to hear, if it has one
 */
public record ModbusSettings(
    Language language,
    int unitId,
    Map<Role, Register> registers,
    Map<LimitSwitch, Register> switches,
    Optional<Register> serialNumber,
    SourceWiring source,
    Optional<KeepAlive> keepAlive)
    implements Talk {
  public static final Language TCP =
      new Language("modbus tcp", false, RegisterReader::keys, ModbusMapReader::tcp);

  public static final Language RTU =
      new Language("modbus rtu", true, RegisterReader::keys, ModbusMapReader::rtu);

  public ModbusSettings {
    registers = ModbusPoints.sorted(Role.class, registers);
    switches = ModbusPoints.sorted(LimitSwitch.class, switches);
  }

  /** Whether its frames are those of RTU. */
  public boolean rtu() {
    return language.equals(RTU);
  }

  @Override
  public OptionalInt numberAtEndpoint() {
    return OptionalInt.of(unitId);
  }

  @Override
  public List<String> understood() {
    return RegisterWords.of(this);
  }

  /**
   * What the driver reads and writes.
   *
   * @param channels the data sheet's words for each role that measures
   * @param feedback turns a position in mA into % of travel
   */
  public ModbusPoints points(Map<Role, Channel> channels, SignalRange feedback) {
    return new ModbusPoints(
        unitId, registers, switches, serialNumber, channels, feedback, source, keepAlive);
  }
}
