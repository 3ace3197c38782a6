package org.benchstroke.simulator;

import java.io.ByteArrayOutputStream;
import java.nio.ByteBuffer;
import java.util.Arrays;
import java.util.Map;
import org.benchstroke.instrument.modbus.Register.Table;

/**
 * The server's side of a Modbus TCP connection: function codes 01..06, 0F and 10 of the MODBUS
 * Application Protocol V1.1b3, in frames of the Messaging on TCP/IP Implementation Guide V1.0b. A
 * header that can't be one (protocol id, length) closes the connection, for there is no way back
 * into step.
 */
public final class ModbusTcpSession implements ByteSession {
  private static final int HEADER_BYTES = 7;
  private static final int LEAST_LENGTH = 2;
  private static final int MOST_LENGTH = 254;
  private static final int MOST_BITS_READ = 2000;
  private static final int MOST_REGISTERS_READ = 125;
  private static final int MOST_BITS_WRITTEN = 1968;
  private static final int MOST_REGISTERS_WRITTEN = 123;

  private static final int ILLEGAL_FUNCTION = 1;
  private static final int ILLEGAL_ADDRESS = 2;
  private static final int ILLEGAL_VALUE = 3;
  private static final int NO_SUCH_UNIT = 11;

  private final Map<Integer, RegisterMap> units;
  private byte[] pending = new byte[0];
  private boolean closed;

  /** A request that gets an exception for an answer. */
  private static final class Refused extends Exception {
    private static final long serialVersionUID = 1L;
    private final int code;

    Refused(int code) {
      this.code = code;
    }
  }

  ModbusTcpSession(Map<Integer, RegisterMap> units) {
    this.units = Map.copyOf(units);
  }

  @Override
  public byte[] feed(byte[] chunk) {
    ByteArrayOutputStream answers = new ByteArrayOutputStream();
    if (!closed) {
      byte[] all = Arrays.copyOf(pending, pending.length + chunk.length);
      System.arraycopy(chunk, 0, all, pending.length, chunk.length);
      int used = takeFrames(all, answers);
      pending = closed ? new byte[0] : Arrays.copyOfRange(all, used, all.length);
    }
    return answers.toByteArray();
  }

  @Override
  public boolean closed() {
    return closed;
  }

  private int takeFrames(byte[] all, ByteArrayOutputStream answers) {
    int at = 0;
    while (all.length - at >= HEADER_BYTES) {
      ByteBuffer frame = ByteBuffer.wrap(all, at, all.length - at);
      short transaction = frame.getShort();
      int protocol = frame.getShort();
      int length = Short.toUnsignedInt(frame.getShort());
      if (protocol != 0 || length < LEAST_LENGTH || length > MOST_LENGTH) {
        closed = true;
        return at;
      }
      if (frame.remaining() < length) {
        return at;
      }
      byte unit = frame.get();
      byte[] request = new byte[length - 1];
      frame.get(request);
      byte[] reply = reply(Byte.toUnsignedInt(unit), request);
      ByteBuffer header = ByteBuffer.allocate(HEADER_BYTES);
      header.putShort(transaction).putShort((short) 0).putShort((short) (reply.length + 1));
      header.put(unit);
      answers.writeBytes(header.array());
      answers.writeBytes(reply);
      at += HEADER_BYTES - 1 + length;
    }
    return at;
  }

  private byte[] reply(int unit, byte[] request) {
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
