package org.benchstroke.simulator;

import java.io.ByteArrayOutputStream;
import java.nio.ByteBuffer;
import java.util.Arrays;
import java.util.Map;

/**
 * The server's side of a Modbus TCP connection: frames of the MODBUS Messaging on TCP/IP
 * Implementation Guide V1.0b. A header that can't be one (protocol id, length) closes the
 * connection, for there is no way back into step.
 */
public final class ModbusTcpSession implements ByteSession {
  private static final int HEADER_BYTES = 7;
  private static final int LEAST_LENGTH = 2;
  private static final int MOST_LENGTH = 254;

  private final ModbusServer server;
  private byte[] pending = new byte[0];
  private boolean closed;

  ModbusTcpSession(Map<Integer, RegisterMap> units) {
    this.server = new ModbusServer(units);
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
      byte[] reply = server.reply(Byte.toUnsignedInt(unit), request);
      ByteBuffer header = ByteBuffer.allocate(HEADER_BYTES);
      header.putShort(transaction).putShort((short) 0).putShort((short) (reply.length + 1));
      header.put(unit);
      answers.writeBytes(header.array());
      answers.writeBytes(reply);
      at += HEADER_BYTES - 1 + length;
    }
    return at;
  }
}
