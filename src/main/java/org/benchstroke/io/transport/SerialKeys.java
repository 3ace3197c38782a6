package org.benchstroke.io.transport;

import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.core.toml.TomlSection;
import org.benchstroke.core.toml.Words;
import org.benchstroke.io.transport.SerialSettings.FlowControl;
import org.benchstroke.io.transport.SerialSettings.Parity;
import org.benchstroke.io.transport.SerialSettings.Rs485;
import org.benchstroke.io.transport.SerialSettings.StopBits;

/** Reads how a serial line is set. What is left out is as Modbus has it. Stateless. */
final class SerialKeys {
  private static final List<String> KEYS =
      List.of(
          "speed", "data_bits", "parity", "stop_bits", "flow_control", "rs485", "frame_silence_us");

  private SerialKeys() {}

  static SerialSettings read(TomlSection section) {
    SerialSettings usual = SerialSettings.USUAL;
    int speed =
        section.integer("speed", SerialSettings.SLOWEST, SerialSettings.FASTEST, usual.speed());
    int dataBits = section.integer("data_bits", 5, 8, usual.dataBits());
    Parity parity =
        section
            .optionalChoice("parity", Words.of(Parity.values(), Parity::key))
            .orElse(usual.parity());
    StopBits stopBits = stopBits(section);
    FlowControl flow =
        section
            .optionalChoice("flow_control", Words.of(FlowControl.values(), FlowControl::key))
            .orElse(usual.flowControl());
    Optional<Rs485> rs485 = section.optionalSection("rs485").map(SerialKeys::rs485);
    if (rs485.isPresent() && flow == FlowControl.RTS_CTS) {
      section.mistake(
          "flow_control", "\"rts/cts\" and rs485 both want the RTS signal; leave one of them out");
    }
    if (!SerialSettings.possible(dataBits, stopBits)) {
      section.mistake(
          "stop_bits",
          Numbers.plain(stopBits.bits())
              + " do not go with "
              + dataBits
              + " data bits; 1.5 go with 5, 2 go with 6 to 8, and 1 with all");
      return usual;
    }
    return new SerialSettings(
        speed, dataBits, parity, stopBits, flow, rs485, frameSilence(section));
  }

  /** A TCP connection has none of these. */
  static void refuse(TomlSection section) {
    for (String key : KEYS) {
      if (section.has(key)) {
        section.mistake(key, "goes with a serial port only; this line's address is tcp://");
      }
    }
  }

  private static StopBits stopBits(TomlSection section) {
    Optional<Object> found = section.optional("stop_bits");
    if (found.isEmpty()) {
      return SerialSettings.USUAL.stopBits();
    }
    for (StopBits each : StopBits.values()) {
      if (found.get() instanceof Number number
          && Double.compare(number.doubleValue(), each.bits()) == 0) {
        return each;
      }
    }
    section.wrong("stop_bits", found.get(), "1, 1.5 or 2");
    return SerialSettings.USUAL.stopBits();
  }

  private static OptionalInt frameSilence(TomlSection section) {
    int most = SerialSettings.LONGEST_SILENCE_MICROS;
    int silence = section.integer("frame_silence_us", 0, most, -1);
    return silence < 0 ? OptionalInt.empty() : OptionalInt.of(silence);
  }

  private static Rs485 rs485(TomlSection section) {
    Rs485 read =
        new Rs485(
            flag(section, "rts_active_high", true),
            section.integer("before_send_us", 0, Rs485.LONGEST_MICROS, 0),
            section.integer("after_send_us", 0, Rs485.LONGEST_MICROS, 0),
            flag(section, "termination", false),
            flag(section, "receive_during_send", false));
    section.noOtherKeys();
    return read;
  }

  private static boolean flag(TomlSection section, String key, boolean otherwise) {
    Optional<Object> found = section.optional(key);
    if (found.isPresent() && !(found.get() instanceof Boolean)) {
      section.wrong(key, found.get(), "true or false");
    }
    return found.filter(Boolean.class::isInstance).map(Boolean.class::cast).orElse(otherwise);
  }
}
