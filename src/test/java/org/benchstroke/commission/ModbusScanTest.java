package org.benchstroke.commission;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Instant;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.List;
import java.util.Queue;
import org.benchstroke.core.clock.Deadline;
import org.benchstroke.core.clock.VirtualClock;
import org.benchstroke.io.instrument.InstrumentException;
import org.benchstroke.io.modbus.ModbusTcpLine;
import org.benchstroke.io.transport.ByteLink;
import org.benchstroke.io.transport.Endpoint;
import org.benchstroke.io.transport.LinkException;
import org.benchstroke.io.transport.LinkOpener;
import org.benchstroke.run.StopSwitch;
import org.junit.jupiter.api.Test;

/** A device of our own, by hand, whose connection takes longer to open than a device may answer. */
class ModbusScanTest {
  private static final Endpoint.Tcp THERE = new Endpoint.Tcp("device", 502);

  private final VirtualClock clock = new VirtualClock(Instant.parse("2026-06-01T08:00:00Z"));
  private final List<Integer> asked = new ArrayList<>();

  @Test
  void theFirstUnitIdIsAskedHoweverLongItTookToConnect() throws InstrumentException {
    LinkOpener slow =
        (endpoint, deadline) -> {
          pass(400);
          if (deadline.passed()) {
            throw new LinkException(LinkException.Kind.PORT_GONE, "not connected in time");
          }
          return new Device();
        };
    List<ModbusScan.Asked> all =
        new ModbusScan(new ModbusTcpLine(slow, THERE, clock), clock, 300_000_000L)
            .scan(1, 3, new StopSwitch(), each -> {});
    assertThat(asked).containsExactly(1, 2, 3);
    assertThat(all).extracting(each -> each.answer().proves()).containsExactly(true, false, true);
  }

  private void pass(long millis) {
    clock.waitUntil(clock.nanos() + millis * 1_000_000L);
  }

  /** Unit ids 1 and 3 hold 7 in each register (MBAP header and function 03, Modbus 1.1b3, 6.3). */
  private final class Device implements ByteLink {
    private final Queue<Byte> out = new ArrayDeque<>();

    @Override
    public Endpoint endpoint() {
      return THERE;
    }

    @Override
    public void send(byte[] bytes, Deadline deadline) {
      asked.add(bytes[6] & 0xFF);
      if (bytes[6] != 2) {
        for (int each : new int[] {bytes[0], bytes[1], 0, 0, 0, 5, bytes[6], 3, 2, 0, 7}) {
          out.add((byte) each);
        }
      }
    }

    @Override
    public int receive(byte[] buffer, int offset, int length, Deadline deadline)
        throws LinkException {
      if (out.isEmpty()) {
        pass(Math.max(0, deadline.remainingNanos() / 1_000_000L + 1));
        throw new LinkException(LinkException.Kind.NO_REPLY, "nothing came");
      }
      int count = 0;
      while (count < length && !out.isEmpty()) {
        buffer[offset + count] = out.remove();
        count++;
      }
      return count;
    }

    @Override
    public int drain(long quietNanos, Deadline deadline) {
      out.clear();
      return 0;
    }

    @Override
    public void close() {
      out.clear();
    }
  }
}
