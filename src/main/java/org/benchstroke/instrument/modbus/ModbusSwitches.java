package org.benchstroke.instrument.modbus;

import java.util.Collections;
import java.util.EnumMap;
import java.util.LinkedHashSet;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;
import org.benchstroke.clock.Deadline;
import org.benchstroke.instrument.InstrumentException;
import org.benchstroke.instrument.LimitSwitch;
import org.benchstroke.instrument.Quality;
import org.benchstroke.instrument.Reading;
import org.benchstroke.instrument.SwitchReader;

/**
 * Switches wired to bits. One request spans them all where one can, so that they belong to one
 * instant; else the reading's stamps span all the requests. The runner's thread owns it.
 */
final class ModbusSwitches implements SwitchReader {
  private final String name;
  private final ModbusTcpLine line;
  private final int unit;
  private final Map<LimitSwitch, Register> wired;
  private final Set<ModbusRequest> requests;

  ModbusSwitches(String name, ModbusTcpLine line, int unit, Map<LimitSwitch, Register> wired) {
    this.name = name;
    this.line = line;
    this.unit = unit;
    this.wired = wired;
    this.requests = requests(wired);
  }

  @Override
  public Reading<Map<LimitSwitch, Boolean>> read(Deadline deadline) throws InstrumentException {
    Map<LimitSwitch, Boolean> made = new EnumMap<>(LimitSwitch.class);
    StringBuilder raw = new StringBuilder();
    long asked = Long.MAX_VALUE;
    long answered = Long.MIN_VALUE;
    for (ModbusRequest request : requests) {
      ModbusAnswer answer = line.exchange(name, unit, request, deadline);
      asked = Math.min(asked, answer.askedNanos());
      answered = Math.max(answered, answer.answeredNanos());
      raw.append(raw.length() == 0 ? "" : "; ");
      raw.append(request.brief()).append(" -> ").append(Hex.of(answer.data()));
      wired.forEach(
          (limitSwitch, register) -> {
            if (covers(request, register)) {
              made.put(limitSwitch, isMade(register, answer.bit(offset(request, register))));
            }
          });
    }
    return new Reading<>(
        Collections.unmodifiableMap(made), Quality.GOOD, raw.toString(), asked, answered);
  }

  private static Set<ModbusRequest> requests(Map<LimitSwitch, Register> wired) {
    int first = wired.values().stream().mapToInt(Register::address).min().orElseThrow();
    int last = wired.values().stream().mapToInt(Register::address).max().orElseThrow();
    Set<Register.Table> tables =
        wired.values().stream().map(Register::table).collect(Collectors.toSet());
    int span = last - first + 1;
    if (tables.size() == 1 && span <= ModbusRequest.MOST_BITS) {
      return Set.of(ModbusRequest.read(tables.iterator().next(), first, span));
    }
    return wired.values().stream()
        .map(r -> ModbusRequest.read(r.table(), r.address(), 1))
        .collect(Collectors.toCollection(LinkedHashSet::new));
  }

  private static boolean covers(ModbusRequest request, Register register) {
    int offset = offset(request, register);
    return request.function() == register.table().readFunction()
        && offset >= 0
        && offset < request.value();
  }

  private static int offset(ModbusRequest request, Register register) {
    return register.address() - request.address();
  }

  /** Scale −1 with offset 1 turns a contact round that is open when the switch is made. */
  private static boolean isMade(Register register, boolean bit) {
    byte[] data = {(byte) (bit ? 1 : 0)};
    return Registers.value(register, data) >= 0.5;
  }
}
