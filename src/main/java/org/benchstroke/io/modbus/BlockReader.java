package org.benchstroke.io.modbus;

import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import org.benchstroke.core.clock.Deadline;
import org.benchstroke.io.instrument.InstrumentException;
import org.benchstroke.io.instrument.InstrumentException.Kind;

/**
 * Reads a set of registers in as few requests as possible. A device that refuses a request for
 * several of them (there may be none between) is asked for smaller blocks from then on; the first
 * readings that come so say why. The line's thread only.
 */
final class BlockReader {
  private final ModbusUnit unit;
  private List<Block> blocks;

  BlockReader(ModbusUnit unit, Collection<Register> registers) {
    this.unit = unit;
    this.blocks = Block.plan(registers);
  }

  /** What was read at once. */
  record Part(Block block, ModbusRequest request, ModbusAnswer answer) {}

  /** How many requests one reading takes. */
  int requests() {
    return blocks.size();
  }

  Image read(Deadline deadline) throws InstrumentException {
    List<Part> parts = new ArrayList<>(blocks.size());
    for (Block block : blocks) {
      read(block, deadline, "", parts);
    }
    if (parts.size() > blocks.size()) {
      blocks = parts.stream().map(Part::block).toList();
    }
    return new Image(unit, parts);
  }

  /** A refusal that smaller blocks got round is told with what they gave. */
  private void read(Block block, Deadline deadline, String note, List<Part> parts)
      throws InstrumentException {
    ModbusRequest request = block.request();
    try {
      ModbusAnswer own = unit.ask(request, deadline);
      ModbusAnswer answer = note.isEmpty() ? own : own.toSecondRequest(note);
      parts.add(new Part(block, request, answer));
    } catch (InstrumentException e) {
      if (e.kind() != Kind.REFUSED || block.registers().size() == 1) {
        throw e;
      }
      String told = note + "asked again after " + e.detail() + ", in smaller blocks: ";
      for (Block smaller : block.smaller()) {
        read(smaller, deadline, told, parts);
      }
    }
  }
}
