package org.benchstroke.commission;

import java.util.ArrayList;
import java.util.List;
import java.util.function.Consumer;
import org.benchstroke.core.clock.BenchClock;
import org.benchstroke.core.clock.Deadline;
import org.benchstroke.io.instrument.InstrumentException;
import org.benchstroke.io.modbus.ModbusLine;
import org.benchstroke.io.modbus.UnitIdCheck;
import org.benchstroke.run.StopSwitch;

/** Asks each unit id of a line whether a device is there. Reads only. One thread. */
public final class ModbusScan {
  /** Opening a connection takes its own time, which is not the device's, ns of wall time. */
  private static final long OPENING_NANOS = 5_000_000_000L;

  private final ModbusLine line;
  private final BenchClock clock;
  private final long replyNanos;

  /**
   * Opens nothing yet.
   *
   * @param replyNanos how long each unit id may take to answer, ns of wall time
   */
  public ModbusScan(ModbusLine line, BenchClock clock, long replyNanos) {
    this.line = line;
    this.clock = clock;
    this.replyNanos = replyNanos;
  }

  /**
   * One unit id.
   *
   * @param unitId the unit id that was asked
   * @param answer what came back
   * @param left how many unit ids are still to be asked
   * @param longestSecondsLeft how long they take if none of them answers, s of wall time
   */
  public record Asked(int unitId, UnitIdCheck.Answer answer, int left, double longestSecondsLeft) {}

  /**
   * Asks every unit id from one to another, in order.
   *
   * @param progress gets each as it is asked
   * @return all that were asked: fewer if it was stopped
   * @throws InstrumentException if the line can't be opened
   */
  public List<Asked> scan(int from, int to, StopSwitch stop, Consumer<Asked> progress)
      throws InstrumentException {
    List<Asked> all = new ArrayList<>();
    try {
      for (int id = from; id <= to && !stop.isStopping(); id++) {
        // Before the device's time begins: else the first of them has none left.
        line.open("unit id " + id, Deadline.inWall(clock, OPENING_NANOS));
        UnitIdCheck.Answer answer = UnitIdCheck.ask(line, id, Deadline.inWall(clock, replyNanos));
        Asked asked = new Asked(id, answer, to - id, (to - id) * (replyNanos / 1e9));
        all.add(asked);
        progress.accept(asked);
      }
    } finally {
      line.close();
    }
    return List.copyOf(all);
  }
}
