package org.benchstroke.io.modbus;

import com.ghgande.j2mod.modbus.io.BytesInputStream;
import com.ghgande.j2mod.modbus.msg.ModbusMessageImpl;
import java.io.IOException;
import java.io.UncheckedIOException;

/**
 * The library's messages to and from the bytes that a frame carries (the PDU: the function code,
 * then what the function says). It frames nothing and checks nothing. One thread at a time.
 */
public final class MessageCodec {
  /** Kept: each one that is made brings some hundred bytes of buffers. */
  private final BytesInputStream in = new BytesInputStream(0);

  /** The bytes of a message. */
  public static byte[] bytes(ModbusMessageImpl message) {
    byte[] said = message.getMessage();
    byte[] pdu = new byte[1 + said.length];
    pdu[0] = (byte) message.getFunctionCode();
    System.arraycopy(said, 0, pdu, 1, said.length);
    return pdu;
  }

  /**
   * Fills a message from its bytes.
   *
   * @param frame where its bytes stand, from {@code from} and before {@code to}. Their function
   *     code, length and counts were checked and are the message's: the library believes the counts
   *     that it reads, and what is left over it doesn't look at
   * @return the message
   */
  public <M extends ModbusMessageImpl> M read(M message, byte[] frame, int from, int to) {
    in.reset(frame, to);
    in.skip(from + 1);
    try {
      message.readData(in);
    } catch (IOException e) {
      throw new UncheckedIOException("a message that was checked ends too early", e);
    }
    return message;
  }
}
