package org.benchstroke.io.modbus;

import com.code_intelligence.jazzer.api.FuzzedDataProvider;
import com.code_intelligence.jazzer.junit.FuzzTest;
import java.time.Instant;
import org.benchstroke.core.clock.Deadline;
import org.benchstroke.core.clock.VirtualClock;
import org.benchstroke.io.instrument.InstrumentException;
import org.benchstroke.io.transport.FakePeer;
import org.benchstroke.io.transport.Replay;

/** Replies of a Modbus device, over TCP and RTU: data of the right length, or one of the errors. */
class ModbusReplyFuzz {
  private static final int UNIT = 17;

  @FuzzTest
  void answer(FuzzedDataProvider data) {
    VirtualClock clock = new VirtualClock(Instant.EPOCH);
    boolean framed = data.consumeBoolean();
    ModbusRequest asked =
        switch (data.consumeInt(0, 3)) {
          case 0 -> ModbusRequest.read(Register.Table.COIL, 7, data.consumeInt(1, 40));
          case 1 -> ModbusRequest.read(Register.Table.INPUT, 7, data.consumeInt(1, 125));
          case 2 -> ModbusRequest.writeCoil(7, data.consumeBoolean());
          default ->
              ModbusRequest.write(7, new byte[] {data.consumeByte(), data.consumeByte()}, false);
        };
    FakePeer peer = new FakePeer(clock, sent -> data.consumeBytes(data.consumeInt(0, 300)));
    ModbusLine line =
        framed
            ? new ModbusRtuLine(peer, Replay.ENDPOINT, RtuTiming.NONE, clock)
            : new ModbusTcpLine(peer, Replay.ENDPOINT, clock);
    for (int i = 0; i < 4; i++) {
      try {
        line.exchange("module", UNIT, asked, Deadline.in(clock, 200_000_000L));
      } catch (InstrumentException told) {
        if (told.getMessage() == null || told.getMessage().isBlank()) {
          throw new AssertionError("an error without words", told);
        }
      }
    }
  }
}
