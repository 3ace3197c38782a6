package org.benchstroke.simulator;

import java.nio.ByteBuffer;
import java.util.Arrays;
import java.util.Map;
import org.benchstroke.io.modbus.Register.Table;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * What Modbus units answer, without the frames around it: function codes 01..06, 0F and 10 of the
 * MODBUS Application Protocol V1.1b3. One thread at a time.
 */
final class ModbusServer {
  private static final int MOST_BITS_READ = 2000;
  private static final int MOST_REGISTERS_READ = 125;
  private static final int MOST_BITS_WRITTEN = 1968;
  private static final int MOST_REGISTERS_WRITTEN = 123;

  private static final int ILLEGAL_FUNCTION = 1;
  private static final int ILLEGAL_ADDRESS = 2;
  private static final int ILLEGAL_VALUE = 3;
  private static final int NO_SUCH_UNIT = 11;

  private static final Logger LOG = LoggerFactory.getLogger(ModbusServer.class);

  private final Map<Integer, RegisterMap> units;

  ModbusServer(Map<Integer, RegisterMap> units) {
    this.units = Map.copyOf(units);
  }

  /** A request that gets an exception for an answer. */
  private static final class Refused extends Exception {
    private static final long serialVersionUID = 1L;
    private final int code;

    Refused(int code) {
      this.code = code;
    }
  }

  boolean has(int unit) {
    return units.containsKey(unit);
  }

  /** Has every unit carry out a message; none answers. */
  void tell(byte[] request) {
    for (RegisterMap map : units.values()) {
      try {
        byte[] unsaid = carryOut(map, request);
        LOG.trace("to all: {} bytes unsaid", unsaid.length);
      } catch (Refused | RegisterMap.NoSuchAddress e) {
        LOG.trace("a unit can't do what was said to all", e);
      }
    }
  }

  /** The answer to one message (a PDU) of at least one byte; a message itself. */
  byte[] reply(int unit, byte[] request) {
    try {
      RegisterMap map = units.get(unit);
      if (map == null) {
        throw new Refused(NO_SUCH_UNIT);
      }
      return carryOut(map, request);
    } catch (Refused refused) {
      return exception(request[0], refused.code);
    } catch (RegisterMap.NoSuchAddress e) {
      return exception(request[0], ILLEGAL_ADDRESS);
    }
  }

  private static byte[] exception(byte function, int code) {
    return new byte[] {(byte) (function | 0x80), (byte) code};
  }

  private static byte[] carryOut(RegisterMap map, byte[] request)
      throws Refused, RegisterMap.NoSuchAddress {
    return switch (request[0]) {
      case 0x01 -> readBits(map, Table.COIL, request);
      case 0x02 -> readBits(map, Table.DISCRETE, request);
      case 0x03 -> readRegisters(map, Table.HOLDING, request);
      case 0x04 -> readRegisters(map, Table.INPUT, request);
      case 0x05 -> writeCoil(map, request);
      case 0x06 -> writeRegister(map, request);
      case 0x0F -> writeCoils(map, request);
      case 0x10 -> writeRegisters(map, request);
      default -> throw new Refused(ILLEGAL_FUNCTION);
    };
  }

  private static byte[] readBits(RegisterMap map, Table table, byte[] request)
      throws Refused, RegisterMap.NoSuchAddress {
    int[] bits = read(map, table, request, MOST_BITS_READ);
    byte[] reply = new byte[2 + (bits.length + 7) / 8];
    reply[0] = request[0];
    reply[1] = (byte) (reply.length - 2);
    for (int i = 0; i < bits.length; i++) {
      reply[2 + i / 8] |= (byte) (bits[i] << (i % 8));
    }
    return reply;
  }

  private static byte[] readRegisters(RegisterMap map, Table table, byte[] request)
      throws Refused, RegisterMap.NoSuchAddress {
    int[] words = read(map, table, request, MOST_REGISTERS_READ);
    ByteBuffer reply = ByteBuffer.allocate(2 + 2 * words.length);
    reply.put(request[0]).put((byte) (2 * words.length));
    for (int word : words) {
      reply.putShort((short) word);
    }
    return reply.array();
  }

  private static int[] read(RegisterMap map, Table table, byte[] request, int most)
      throws Refused, RegisterMap.NoSuchAddress {
    requireLength(request, 5);
    return map.read(table, word(request, 1), quantity(request, most));
  }

  private static byte[] writeCoil(RegisterMap map, byte[] request)
      throws Refused, RegisterMap.NoSuchAddress {
    requireLength(request, 5);
    int value = word(request, 3);
    if (value != 0x0000 && value != 0xFF00) {
      throw new Refused(ILLEGAL_VALUE);
    }
    map.write(Table.COIL, word(request, 1), new int[] {value == 0 ? 0 : 1});
    return request;
  }

  private static byte[] writeRegister(RegisterMap map, byte[] request)
      throws Refused, RegisterMap.NoSuchAddress {
    requireLength(request, 5);
    map.write(Table.HOLDING, word(request, 1), new int[] {word(request, 3)});
    return request;
  }

  private static byte[] writeCoils(RegisterMap map, byte[] request)
      throws Refused, RegisterMap.NoSuchAddress {
    int[] bits = new int[written(request, MOST_BITS_WRITTEN, 1)];
    for (int i = 0; i < bits.length; i++) {
      bits[i] = (request[6 + i / 8] >> (i % 8)) & 1;
    }
    map.write(Table.COIL, word(request, 1), bits);
    return Arrays.copyOf(request, 5);
  }

  private static byte[] writeRegisters(RegisterMap map, byte[] request)
      throws Refused, RegisterMap.NoSuchAddress {
    int[] words = new int[written(request, MOST_REGISTERS_WRITTEN, 16)];
    for (int i = 0; i < words.length; i++) {
      words[i] = word(request, 6 + 2 * i);
    }
    map.write(Table.HOLDING, word(request, 1), words);
    return Arrays.copyOf(request, 5);
  }

  /** How many values a write of several carries, once its byte count and length agree with it. */
  private static int written(byte[] request, int most, int bitsEach) throws Refused {
    if (request.length < 6) {
      throw new Refused(ILLEGAL_VALUE);
    }
    int count = quantity(request, most);
    int bytes = (count * bitsEach + 7) / 8;
    if (Byte.toUnsignedInt(request[5]) != bytes) {
      throw new Refused(ILLEGAL_VALUE);
    }
    requireLength(request, 6 + bytes);
    return count;
  }

  private static int quantity(byte[] request, int most) throws Refused {
    int count = word(request, 3);
    if (count < 1 || count > most) {
      throw new Refused(ILLEGAL_VALUE);
    }
    return count;
  }

  private static void requireLength(byte[] request, int length) throws Refused {
    if (request.length != length) {
      throw new Refused(ILLEGAL_VALUE);
    }
  }

  private static int word(byte[] bytes, int at) {
    return Byte.toUnsignedInt(bytes[at]) << 8 | Byte.toUnsignedInt(bytes[at + 1]);
  }
}
