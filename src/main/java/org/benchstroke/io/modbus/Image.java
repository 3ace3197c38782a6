package org.benchstroke.io.modbus;

import java.util.ArrayList;
import java.util.Collection;
import java.util.EnumSet;
import java.util.List;
import java.util.NoSuchElementException;
import java.util.Optional;
import java.util.Set;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.io.instrument.Doubt;
import org.benchstroke.io.instrument.InstrumentException;
import org.benchstroke.io.instrument.InstrumentException.Kind;
import org.benchstroke.io.instrument.Reading;

/** What registers held, and when. Immutable. */
final class Image {
  private final ModbusUnit unit;
  private final List<BlockReader.Part> parts;

  /** Of parts that nobody changes any more. */
  Image(ModbusUnit unit, List<BlockReader.Part> parts) {
    this.unit = unit;
    this.parts = parts;
  }

  /** A value in its unit, not yet in its type. */
  record Measurement(double value, String raw, Set<Doubt> doubts, ModbusAnswer answer) {
    /** With what is doubtful about the value itself. */
    <T> Reading<T> as(T typed, Set<Doubt> ofValue) {
      return new Reading<>(
          typed, doubtsAnd(ofValue), raw, answer.askedNanos(), answer.answeredNanos());
    }

    Set<Doubt> doubtsAnd(Set<Doubt> more) {
      Set<Doubt> all = EnumSet.noneOf(Doubt.class);
      all.addAll(doubts);
      all.addAll(more);
      return all;
    }
  }

  BlockReader.Part partOf(Register register) {
    for (BlockReader.Part part : parts) {
      if (part.block().covers(register)) {
        return part;
      }
    }
    throw new NoSuchElementException(register.place() + " was not read");
  }

  byte[] data(Register register) {
    BlockReader.Part part = partOf(register);
    return part.answer().dataOf(register, part.block().first());
  }

  /** The parts that hold any of the registers, in the order of these. */
  List<BlockReader.Part> partsOf(Collection<Register> registers) {
    List<BlockReader.Part> holding = new ArrayList<>(parts.size());
    for (Register register : registers) {
      BlockReader.Part part = partOf(register);
      if (!holding.contains(part)) {
        holding.add(part);
      }
    }
    return holding;
  }

  /** The register's value in its unit, if it holds one that can be believed. */
  Measurement measured(Register register) throws InstrumentException {
    BlockReader.Part part = partOf(register);
    byte[] data = part.answer().dataOf(register, part.block().first());
    double number = Registers.number(register, data);
    if (register.guard().meansNoValue(number, register.type())) {
      String held = register.place() + " holds " + shortest(register, number);
      throw unit.failure(
          Kind.NO_VALUE, exchange(part), held + ", which means that there is no value");
    }
    double value = Registers.scaled(register, number);
    if (!Double.isFinite(value)) {
      throw unit.badReply(
          exchange(part), what(register) + ordered(register) + " is " + odd(number));
    }
    if (register.guard().plausible().isPresent()) {
      Guard.Range range = register.guard().plausible().get();
      if (!range.holds(value)) {
        throw unit.badReply(exchange(part), implausible(register, value, range));
      }
    }
    String raw =
        notes(register)
            + asked(register, part)
            + " -> "
            + Hex.of(data)
            + " = "
            + shortest(register, number);
    return new Measurement(value, raw, doubts(register), part.answer());
  }

  /** What a request for the register by itself would begin with. */
  private static String asked(Register register, BlockReader.Part part) {
    return register.address() == part.block().first()
        ? part.request().brief()
        : ModbusRequest.read(register.table(), register.address(), register.type().words()).brief();
  }

  /** Of a value, and of the counter that stands by it. */
  private Set<Doubt> doubts(Register register) {
    Set<Doubt> doubts = EnumSet.noneOf(Doubt.class);
    doubts.addAll(partOf(register).answer().doubts());
    register
        .guard()
        .counter()
        .map(Guard.Counter::register)
        .flatMap(this::partHolding)
        .ifPresent(part -> doubts.addAll(part.answer().doubts()));
    return doubts;
  }

  /** What was mended on the way to a value, and to the counter that stands by it. */
  private String notes(Register register) {
    String own = partOf(register).answer().note();
    String beside =
        register.guard().counter().map(Guard.Counter::register).flatMap(this::noteOf).orElse("");
    return beside.isEmpty() || beside.equals(own) ? own : own + "its counter " + beside;
  }

  private Optional<String> noteOf(Register counter) {
    return partHolding(counter).map(part -> part.answer().note());
  }

  private Optional<BlockReader.Part> partHolding(Register register) {
    return parts.stream().filter(p -> p.block().registers().contains(register)).findFirst();
  }

  private String exchange(BlockReader.Part part) {
    return unit.exchange(part.request(), part.answer());
  }

  private static String implausible(Register register, double value, Guard.Range range) {
    return "implausible: "
        + what(register)
        + ordered(register)
        + " is "
        + Numbers.plain(value)
        + ", plausible is "
        + Numbers.plain(range.low())
        + " to "
        + Numbers.plain(range.high())
        + "; look at type, order and scale";
  }

  private static String what(Register register) {
    String kind =
        switch (register.type()) {
          case F32, F64 -> "the float in ";
          case BCD16, BCD32 -> "the BCD number in ";
          default -> "the number in ";
        };
    return kind + register.place();
  }

  private static String ordered(Register register) {
    return register.type().words() > 1 ? " read as " + register.order() : "";
  }

  private static String odd(double number) {
    return Double.isNaN(number) ? "not a number" : "infinite";
  }

  private static String shortest(Register register, double number) {
    return switch (register.type()) {
      case F32 -> Float.toString((float) number);
      case F64 -> Double.toString(number);
      default -> Numbers.plain(number);
    };
  }
}
