package org.benchstroke.speed;

import java.util.Arrays;
import org.benchstroke.core.clock.Deadline;
import org.benchstroke.core.clock.SystemClock;
import org.benchstroke.io.modbus.RtuFrame;
import org.benchstroke.io.transport.ByteLink;
import org.benchstroke.io.transport.Endpoint;
import org.benchstroke.io.transport.LinkException;
import org.benchstroke.io.transport.SerialSettings;
import org.benchstroke.io.transport.SystemLinks;
import org.benchstroke.simulator.PacedWire;

/** Answers every request of eight bytes with the same two registers, at the pace of a wire. */
final class PacedServer implements AutoCloseable {
  private static final byte[] ANSWER =
      RtuFrame.of(Poller.UNIT, new byte[] {4, 4, 0x42, 0x48, 0, 0});
  private static final int REQUEST = 8;

  private final ByteLink link;
  private final Thread thread;

  private PacedServer(ByteLink link, Thread thread) {
    this.link = link;
    this.thread = thread;
  }

  static PacedServer started(
      Endpoint.Serial port, SerialSettings settings, long silenceNanos, SystemClock clock)
      throws LinkException {
    ByteLink link =
        new SystemLinks()
            .open(new Endpoint.Serial(port.port(), settings), Deadline.in(clock, 2_000_000_000L));
    PacedWire wire = new PacedWire(link, settings, silenceNanos, clock);
    Thread thread = new Thread(() -> serve(wire, clock), "paced server");
    thread.setDaemon(true);
    thread.start();
    return new PacedServer(link, thread);
  }

  private static void serve(PacedWire wire, SystemClock clock) {
    int heard = 0;
    try {
      while (true) {
        heard += wire.hear(Deadline.in(clock, 60_000_000_000L)).length;
        if (heard >= REQUEST) {
          heard = 0;
          wire.say(Arrays.copyOf(ANSWER, ANSWER.length));
        }
      }
    } catch (LinkException | InterruptedException e) {
      // The end of the measurement.
    }
  }

  @Override
  public void close() {
    link.close();
    thread.interrupt();
  }
}
