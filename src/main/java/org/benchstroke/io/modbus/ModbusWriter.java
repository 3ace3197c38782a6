package org.benchstroke.io.modbus;

import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.benchstroke.core.clock.Deadline;
import org.benchstroke.io.instrument.Doubt;
import org.benchstroke.io.instrument.InstrumentException;
import org.benchstroke.io.instrument.InstrumentException.Kind;

/**
 * Writes once and reads back: an echo only says that the write was understood. A write whose reply
 * is missing or bad is not sent again, but what is read back may show that it took effect. The
 * line's thread only.
 */
final class ModbusWriter {
  private final ModbusUnit unit;

  ModbusWriter(ModbusUnit unit) {
    this.unit = unit;
  }

  /**
   * What stands in the register after a write.
   *
   * @param image what was read back
   * @param askedNanos when the write was sent
   * @param answeredNanos when it was known to be carried out
   * @param failed what went wrong with the write's own reply; empty if nothing did
   */
  record Outcome(
      Image image, long askedNanos, long answeredNanos, Optional<InstrumentException> failed) {
    /** What went wrong, for the record; empty if nothing did. */
    String note() {
      return failed
          .map(e -> "the write: " + e.kind().words() + ", " + e.detail() + ", read back: ")
          .orElse("");
    }

    Set<Doubt> doubts() {
      return failed.isPresent() ? Set.of(Doubt.WRITE_UNCONFIRMED) : Doubt.NONE;
    }

    /** The register does not hold what was written; after a fault, that fault is the cause. */
    InstrumentException other(ModbusUnit unit, Register register, String detail) {
      BlockReader.Part part = image.partOf(register);
      String exchange = unit.exchange(part.request(), part.answer());
      return failed
          .map(e -> unit.failure(e.kind(), exchange, e.detail() + "; read back: " + detail))
          .orElseGet(() -> unit.badReply(exchange, detail));
    }
  }

  /** After these the instrument may have done it or not; a gateway, too, only missed the reply. */
  private static final Set<Kind> LEAVES_OPEN =
      EnumSet.of(Kind.NO_REPLY, Kind.BAD_REPLY, Kind.BEHIND_GATEWAY);

  /** Writes with the first half of the time, so that some is left to read back. */
  Outcome write(ModbusRequest request, Register register, Deadline deadline)
      throws InstrumentException {
    long asked = deadline.clock().nanos();
    Optional<InstrumentException> failed = Optional.empty();
    Optional<ModbusAnswer> answer = Optional.empty();
    try {
      answer = Optional.of(unit.ask(request, firstHalf(deadline)));
    } catch (InstrumentException e) {
      if (!LEAVES_OPEN.contains(e.kind()) || deadline.passed()) {
        throw e;
      }
      failed = Optional.of(e);
    }
    try {
      Image back = new BlockReader(unit, List.of(register)).read(deadline);
      return answer.isPresent()
          ? new Outcome(back, answer.get().askedNanos(), answer.get().answeredNanos(), failed)
          : new Outcome(back, asked, back.partOf(register).answer().answeredNanos(), failed);
    } catch (InstrumentException e) {
      if (failed.isPresent()) {
        failed.get().addSuppressed(e);
        throw failed.get();
      }
      throw e;
    }
  }

  private static Deadline firstHalf(Deadline deadline) {
    return deadline.passed()
        ? deadline
        : new Deadline(deadline.clock(), deadline.atNanos() - deadline.remainingNanos() / 2);
  }
}
