package org.benchstroke.io.modbus;

import java.util.HashMap;
import java.util.Map;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.io.instrument.InstrumentException;
import org.benchstroke.io.instrument.InstrumentException.Kind;

/** Sees whether the counters beside the values go on counting. The line's thread only. */
final class StaleWatch {
  private final ModbusUnit unit;
  private final Map<Register, Sighting> seen = new HashMap<>();

  /** A counter's number, and since when it has been seen. */
  private record Sighting(double number, long sinceNanos) {}

  StaleWatch(ModbusUnit unit) {
    this.unit = unit;
  }

  /**
   * Notes the counter of a register, if it has one.
   *
   * @throws InstrumentException {@code FROZEN} if it has stood still for too long
   */
  void check(Register register, Image image) throws InstrumentException {
    if (register.guard().counter().isEmpty()) {
      return;
    }
    Guard.Counter counter = register.guard().counter().get();
    Register at = counter.register();
    BlockReader.Part part = image.partOf(at);
    double number = Registers.number(at, image.data(at));
    long now = part.answer().answeredNanos();
    Sighting before = seen.get(at);
    if (before == null || before.number() != number) {
      seen.put(at, new Sighting(number, now));
      return;
    }
    double seconds = (now - before.sinceNanos()) / 1e9;
    if (seconds > counter.seconds()) {
      throw unit.failure(
          Kind.FROZEN,
          unit.exchange(part.request(), part.answer()),
          "the counter in "
              + at.place()
              + " has been "
              + Numbers.plain(number)
              + " for "
              + Numbers.fixed(seconds, 1)
              + " s, allowed are "
              + Numbers.plain(counter.seconds())
              + " s: the value in "
              + register.place()
              + " is no longer measured");
    }
  }
}
