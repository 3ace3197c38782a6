package org.benchstroke.simulator;

import java.io.ByteArrayOutputStream;
import java.util.Arrays;
import java.util.Map;
import org.benchstroke.io.modbus.Crc;
import org.benchstroke.io.modbus.RtuFrame;

/**
 * The slaves' side of an RTU line, serial or over TCP: frames of MODBUS over Serial Line V1.02,
 * 2.5.1. Like real slaves they say nothing to a frame with a bad CRC, for a unit that is not there,
 * or to all (unit 0).
 *
 * <p>Bytes have no time here, so that a frame's end is not found by the silence after it but by its
 * length, which follows from its function; a function that is not known may have any length.
 */
public final class ModbusRtuSession implements ByteSession {
  private static final int TO_ALL = 0;
  private static final int SHORTEST = 4;

  /** Unit, function, address, value, CRC: functions 01 to 06. */
  private static final int USUAL = 8;

  /** What functions 0F and 10 have besides their data. */
  private static final int AROUND_DATA = 9;

  private static final int COUNT_AT = 6;

  private final ModbusServer server;
  private byte[] pending = new byte[0];

  ModbusRtuSession(Map<Integer, RegisterMap> units) {
    this.server = new ModbusServer(units);
  }

  @Override
  public byte[] feed(byte[] chunk) {
    byte[] all = Arrays.copyOf(pending, pending.length + chunk.length);
    System.arraycopy(chunk, 0, all, pending.length, chunk.length);
    ByteArrayOutputStream answers = new ByteArrayOutputStream();
    int used = 0;
    for (int at = 0; at + SHORTEST <= all.length; ) {
      int end = frameEnd(all, at);
      if (end > 0) {
        answers.writeBytes(answer(all, at, end));
        used = end;
        at = end;
      } else {
        at++;
      }
    }
    // What can no longer be part of a frame is forgotten.
    pending = Arrays.copyOfRange(all, Math.max(used, all.length - RtuFrame.LONGEST), all.length);
    return answers.toByteArray();
  }

  /** A wire does not hang up. */
  @Override
  public boolean closed() {
    return false;
  }

  /** Where the sound frame that begins here ends; 0 if there is none. */
  private static int frameEnd(byte[] all, int at) {
    int function = Byte.toUnsignedInt(all[at + 1]);
    if (function >= 0x01 && function <= 0x06) {
      return sound(all, at, at + USUAL);
    }
    if (function == 0x0F || function == 0x10) {
      return all.length > at + COUNT_AT
          ? sound(all, at, at + AROUND_DATA + Byte.toUnsignedInt(all[at + COUNT_AT]))
          : 0;
    }
    return Math.max(
        0, Crc.soundEnd(all, at, SHORTEST, Math.min(all.length, at + RtuFrame.LONGEST)));
  }

  private static int sound(byte[] all, int at, int end) {
    return end <= all.length && Crc.endsSound(all, at, end) ? end : 0;
  }

  private byte[] answer(byte[] all, int at, int end) {
    int unit = Byte.toUnsignedInt(all[at]);
    byte[] request = Arrays.copyOfRange(all, at + 1, end - Crc.BYTES);
    if (unit == TO_ALL) {
      server.tell(request);
      return new byte[0];
    }
    return server.has(unit) ? RtuFrame.of(unit, server.reply(unit, request)) : new byte[0];
  }
}
