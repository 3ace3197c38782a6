package org.benchstroke.io.modbus;

import java.util.ArrayList;
import java.util.List;
import org.benchstroke.core.quantity.Numbers;

/** Says where an instrument's values stand, as it was understood. Stateless. */
final class RegisterWords {
  private RegisterWords() {}

  /** One line for each register. */
  static List<String> of(ModbusSettings map) {
    List<String> lines = new ArrayList<>();
    String who = "unit " + map.unitId();
    map.registers()
        .forEach(
            (role, register) -> {
              lines.add(line(who, role.key(), register));
              register
                  .guard()
                  .counter()
                  .ifPresent(c -> lines.add(line(who, role.key() + ", counter", c.register())));
            });
    map.source().output().ifPresent(coil -> lines.add(line(who, "output", coil)));
    map.switches().forEach((each, bit) -> lines.add(line(who, "switch " + each.key(), bit)));
    map.serialNumber().ifPresent(register -> lines.add(line(who, "serial number", register)));
    map.keepAlive().ifPresent(each -> lines.add(line(who, "keep-alive", each.register())));
    return lines;
  }

  private static String line(String who, String what, Register register) {
    String address = Integer.toString(register.address());
    return who
        + ": "
        + what
        + " at "
        + register.place()
        + (address.equals(register.written()) ? "" : " (address " + address + ")")
        + coded(register);
  }

  private static String coded(Register register) {
    if (register.type() == Register.Type.BIT) {
      return "";
    }
    return ", "
        + register.type().key()
        + (register.type().words() > 1 ? " " + register.order() : "")
        + (register.scale() == 1.0 ? "" : " × " + Numbers.plain(register.scale()))
        + (register.offset() == 0.0 ? "" : " + " + Numbers.plain(register.offset()));
  }
}
