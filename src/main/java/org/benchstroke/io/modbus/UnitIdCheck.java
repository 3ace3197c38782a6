package org.benchstroke.io.modbus;

import org.benchstroke.core.clock.Deadline;
import org.benchstroke.io.instrument.InstrumentException;

/**
 * Asks whether a device answers under a unit id, with one read of one holding register: it changes
 * nothing. An exception reply proves a device as well as a value does, but for the two exceptions
 * that a gateway sends in place of a device (MODBUS Application Protocol V1.1b3, 7: 0A and 0B). The
 * line's thread.
 */
public final class UnitIdCheck {
  private static final ModbusRequest QUESTION = ModbusRequest.read(Register.Table.HOLDING, 0, 1);

  private UnitIdCheck() {}

  /** What came back. */
  public enum Reply {
    /** A value: a device. */
    VALUE,
    /** A device that has no such register. */
    EXCEPTION,
    /** A gateway, which says that nobody answers it. */
    GATEWAY,
    /** Something that is no sound reply to the question. */
    UNSOUND,
    /** Nothing. */
    NOTHING
  }

  /**
   * An answer.
   *
   * @param reply what came back
   * @param words the same for people
   */
  public record Answer(Reply reply, String words) {
    /** Whether a device is there. */
    public boolean proves() {
      return reply == Reply.VALUE || reply == Reply.EXCEPTION;
    }
  }

  /**
   * Asks.
   *
   * @throws InstrumentException if the line itself can't be opened
   */
  public static Answer ask(ModbusLine line, int unitId, Deadline deadline)
      throws InstrumentException {
    String name = "unit id " + unitId;
    line.open(name, deadline);
    try {
      ModbusAnswer answer = line.exchange(name, unitId, QUESTION, deadline);
      return new Answer(Reply.VALUE, "holding 0 reads " + Hex.of(answer.data()));
    } catch (InstrumentException e) {
      Reply reply =
          switch (e.kind()) {
            case REFUSED -> Reply.EXCEPTION;
            case BEHIND_GATEWAY -> Reply.GATEWAY;
            case BAD_REPLY -> Reply.UNSOUND;
            default -> Reply.NOTHING;
          };
      return new Answer(reply, e.detail());
    }
  }
}
