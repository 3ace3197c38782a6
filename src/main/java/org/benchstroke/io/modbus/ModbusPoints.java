package org.benchstroke.io.modbus;

import java.util.Collections;
import java.util.EnumMap;
import java.util.EnumSet;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.benchstroke.core.quantity.SignalRange;
import org.benchstroke.io.instrument.Channel;
import org.benchstroke.io.instrument.LimitSwitch;
import org.benchstroke.io.instrument.Role;

/**
 * What a Modbus instrument holds, where, and what its data sheet says of it. Immutable.
 *
 * @param unitId its unit id, 0..255
 * @param registers the value of each role that it plays
 * @param switches the bits that switches are wired to
 * @param serialNumber where it keeps its serial number, if anywhere
 * @param channels the data sheet's words for each role that measures
 * @param feedback turns a position in mA into % of travel
 * @param source how the signal source is written, if it plays one
 * @param keepAlive what its watchdog wants to hear, if it has one
 */
public record ModbusPoints(
    int unitId,
    Map<Role, Register> registers,
    Map<LimitSwitch, Register> switches,
    Optional<Register> serialNumber,
    Map<Role, Channel> channels,
    SignalRange feedback,
    SourceWiring source,
    Optional<KeepAlive> keepAlive) {

  private static final Map<Role, Set<String>> UNITS =
      Map.of(
          Role.POSITION_TRANSMITTER, Set.of("mA", "%"),
          Role.ANGLE_REFERENCE, Set.of("deg"),
          Role.LOOP_METER, Set.of("mA"),
          Role.SUPPLY_METER, Set.of("V"),
          Role.SIGNAL_SOURCE, Set.of("mA"));

  /** Points of an instrument that is no source and has no watchdog. */
  public ModbusPoints(
      int unitId,
      Map<Role, Register> registers,
      Map<LimitSwitch, Register> switches,
      Optional<Register> serialNumber,
      Map<Role, Channel> channels,
      SignalRange feedback) {
    this(
        unitId,
        registers,
        switches,
        serialNumber,
        channels,
        feedback,
        SourceWiring.PLAIN,
        Optional.empty());
  }

  public ModbusPoints {
    require(unitId >= 0 && unitId <= 255, "a unit id is 0 to 255, not " + unitId);
    registers = sorted(Role.class, registers);
    switches = sorted(LimitSwitch.class, switches);
    channels = sorted(Role.class, channels);
    registers.forEach(ModbusPoints::requireUsable);
    for (Map.Entry<Role, Register> entry : registers.entrySet()) {
      requireChannel(entry.getKey(), Optional.ofNullable(channels.get(entry.getKey())));
    }
    for (Register register : switches.values()) {
      require(register.table().bits(), "a switch is read from a coil or a discrete input");
      requireScale(register);
    }
    serialNumber.ifPresent(
        r -> {
          boolean whole = !r.type().real() && r.type() != Register.Type.BIT;
          require(whole, "a serial number is kept as a whole number");
          requireScale(r);
        });
  }

  /** Every role that it plays. */
  Set<Role> roles() {
    Set<Role> roles = EnumSet.noneOf(Role.class);
    roles.addAll(registers.keySet());
    if (!switches.isEmpty()) {
      roles.add(Role.SWITCHES);
    }
    return roles;
  }

  private static void requireUsable(Role role, Register register) {
    requireScale(register);
    if (UNITS.containsKey(role)) {
      require(!register.table().bits(), "the " + role.key() + " needs a register, not a bit");
      boolean written = role != Role.SIGNAL_SOURCE || register.table() == Register.Table.HOLDING;
      require(written, "a signal source is written to a holding register");
    } else {
      require(role == Role.MOTOR_POWER, "Modbus does not play the role " + role.key());
      require(register.table() == Register.Table.COIL, "motor power is switched by a coil");
    }
  }

  private static void requireChannel(Role role, Optional<Channel> channel) {
    Set<String> units = UNITS.getOrDefault(role, Set.of());
    boolean fits = units.isEmpty() || channel.filter(c -> units.contains(c.unit())).isPresent();
    require(fits, "the " + role.key() + " needs a channel in " + String.join(" or ", units));
  }

  private static void requireScale(Register register) {
    boolean sound =
        Double.isFinite(register.scale())
            && register.scale() != 0.0
            && Double.isFinite(register.offset());
    require(sound, "a scale is a number other than 0, an offset is a number");
  }

  private static void require(boolean holds, String otherwise) {
    if (!holds) {
      throw new IllegalArgumentException(otherwise);
    }
  }

  static <K extends Enum<K>, V> Map<K, V> sorted(Class<K> keys, Map<K, V> map) {
    Map<K, V> sorted = new EnumMap<>(keys);
    sorted.putAll(map);
    return Collections.unmodifiableMap(sorted);
  }
}
