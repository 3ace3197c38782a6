package org.benchstroke.peers;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HexFormat;
import java.util.List;
import org.benchstroke.core.clock.Deadline;
import org.benchstroke.io.transport.ByteLink;
import org.benchstroke.io.transport.Endpoint;
import org.benchstroke.io.transport.LinkException;
import org.benchstroke.io.transport.LinkOpener;

/**
 * Writes down what goes over links, as packets that tshark can read: Ethernet, IPv4 and TCP headers
 * are made up around the bytes (libpcap file format 2.4; RFC 791, RFC 793).
 */
final class Wiretap implements LinkOpener {
  /** The port of Modbus TCP. */
  static final int PORT = 502;

  private static final int CLIENT_PORT = 40_000;
  private static final int HEADERS = 14 + 20 + 20;

  private final LinkOpener links;
  private final List<Heard> heard = new ArrayList<>();

  private record Heard(boolean asked, String hex) {
    byte[] bytes() {
      return HexFormat.of().parseHex(hex);
    }
  }

  Wiretap(LinkOpener links) {
    this.links = links;
  }

  @Override
  public ByteLink open(Endpoint endpoint, Deadline deadline) throws LinkException {
    return new Tapped(links.open(endpoint, deadline));
  }

  private void hear(boolean asked, byte[] bytes) {
    heard.add(new Heard(asked, HexFormat.of().formatHex(bytes)));
  }

  private final class Tapped implements ByteLink {
    private final ByteLink link;

    Tapped(ByteLink link) {
      this.link = link;
    }

    @Override
    public Endpoint endpoint() {
      return link.endpoint();
    }

    @Override
    public void send(byte[] bytes, Deadline deadline) throws LinkException {
      link.send(bytes, deadline);
      hear(true, bytes);
    }

    @Override
    public int receive(byte[] buffer, int offset, int length, Deadline deadline)
        throws LinkException {
      int count = link.receive(buffer, offset, length, deadline);
      hear(false, Arrays.copyOfRange(buffer, offset, offset + count));
      return count;
    }

    @Override
    public int drain(long quietNanos, Deadline deadline) throws LinkException {
      return link.drain(quietNanos, deadline);
    }

    @Override
    public void close() {
      link.close();
    }
  }

  int requests() {
    return (int) heard.stream().filter(Heard::asked).count();
  }

  /** Writes a capture file. */
  Path write(Path file) {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    out.writeBytes(
        little(24)
            .putInt(0xA1B2C3D4)
            .putShort((short) 2)
            .putShort((short) 4)
            .putInt(0)
            .putInt(0)
            .putInt(65_535)
            .putInt(1)
            .array());
    int[] sequence = {1, 1};
    for (int i = 0; i < heard.size(); i++) {
      Heard each = heard.get(i);
      int length = HEADERS + each.bytes().length;
      out.writeBytes(
          little(16)
              .putInt(i / 1000)
              .putInt(i % 1000 * 1000)
              .putInt(length)
              .putInt(length)
              .array());
      out.writeBytes(packet(each, sequence));
    }
    try {
      return Files.write(file, out.toByteArray());
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static ByteBuffer little(int size) {
    return ByteBuffer.allocate(size).order(ByteOrder.LITTLE_ENDIAN);
  }

  private static byte[] packet(Heard each, int[] sequence) {
    int from = each.asked() ? 0 : 1;
    byte[] client = {10, 0, 0, 1};
    byte[] server = {10, 0, 0, 2};
    ByteBuffer packet = ByteBuffer.allocate(HEADERS + each.bytes().length);
    packet.put(new byte[] {2, 0, 0, 0, 0, 1, 2, 0, 0, 0, 0, 2}).putShort((short) 0x0800);
    packet.put((byte) 0x45).put((byte) 0).putShort((short) (40 + each.bytes().length));
    packet.putInt(0x4000).put((byte) 64).put((byte) 6).putShort((short) 0);
    packet.put(each.asked() ? client : server).put(each.asked() ? server : client);
    packet.putShort((short) (each.asked() ? CLIENT_PORT : PORT));
    packet.putShort((short) (each.asked() ? PORT : CLIENT_PORT));
    packet.putInt(sequence[from]).putInt(sequence[1 - from]);
    // Header of five words; push and acknowledge.
    packet.put((byte) 0x50).put((byte) 0x18).putShort((short) 0xFFFF).putInt(0);
    packet.put(each.bytes());
    sequence[from] += each.bytes().length;
    return packet.array();
  }
}
