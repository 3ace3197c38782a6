package org.benchstroke.simulator;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import org.benchstroke.bench.InstrumentSpec;
import org.benchstroke.core.model.Noise;
import org.benchstroke.core.toml.FileMistakes;
import org.benchstroke.core.toml.Mistake;
import org.benchstroke.io.instrument.Language;
import org.benchstroke.io.modbus.ModbusSettings;
import org.benchstroke.simulator.LinkFault.Kind;
import org.benchstroke.simulator.LinkFault.When;

/**
 * The faults of a simulation's links while its bench is played: which exchange of which instrument
 * is hit. The same exchanges at the same times are hit in the same way. One thread at a time.
 */
final class LinkScript {
  private static final long SEED_STRIDE = 7_919L;

  private final List<Course> faults = new ArrayList<>();
  private final long seed;
  private long nowNanos;

  LinkScript(Simulation simulation) {
    this.seed = simulation.seed();
    for (LinkFault fault : simulation.faults()) {
      faults.add(new Course(fault, noise(fault.number())));
    }
  }

  /**
   * Whether the faults fit the instruments of a bench.
   *
   * @throws FileMistakes with every fault that is on no instrument, or on one that can't have it
   */
  static void requireFit(List<LinkFault> faults, List<InstrumentSpec> instruments)
      throws FileMistakes {
    List<Mistake> mistakes = new ArrayList<>();
    for (LinkFault fault : faults) {
      List<InstrumentSpec> on =
          instruments.stream().filter(spec -> isOn(fault, spec.name())).toList();
      if (on.isEmpty()) {
        mistakes.add(mistake(fault, "on", unknown(fault.on(), instruments)));
      } else if (on.stream().noneMatch(spec -> fits(fault.kind(), spec.speaks()))) {
        String need = fault.kind() == Kind.BAD_CRC ? "modbus rtu" : "modbus tcp or modbus rtu";
        String found = "found \"" + fault.kind().word() + "\", but ";
        mistakes.add(mistake(fault, "kind", found + fault.on() + " does not speak " + need));
      }
    }
    if (!mistakes.isEmpty()) {
      throw new FileMistakes(mistakes);
    }
  }

  private static String unknown(String found, List<InstrumentSpec> instruments) {
    String allowed =
        instruments.stream()
            .map(spec -> "\"" + spec.name() + "\" or ")
            .collect(Collectors.joining());
    return "found \"" + found + "\", allowed is " + allowed + "\"" + LinkFault.ALL + "\"";
  }

  private static Mistake mistake(LinkFault fault, String key, String message) {
    return new Mistake(fault.file(), fault.line(), "fault[" + fault.number() + "]." + key, message);
  }

  private static boolean isOn(LinkFault fault, String instrument) {
    return fault.on().equals(LinkFault.ALL) || fault.on().equals(instrument);
  }

  private static boolean fits(Kind kind, Language language) {
    return switch (kind) {
      case BAD_CRC -> language.equals(ModbusSettings.RTU);
      case EXCEPTION -> language.equals(ModbusSettings.RTU) || language.equals(ModbusSettings.TCP);
      default -> true;
    };
  }

  void advanceTo(long nanos) {
    nowNanos = nanos;
  }

  /** The session of some instruments with the faults between it and its client. */
  ByteSession around(List<InstrumentSpec> there, ByteSession session) {
    return faults.isEmpty() ? session : new FaultySession(this, there, session);
  }

  /** Random bytes that no other fault's chances depend on. */
  Noise noise(int number) {
    return new Noise(seed * 31 + SEED_STRIDE * number);
  }

  /** Whether one of these instruments is unplugged now, and so their address is. */
  boolean unplugged(List<InstrumentSpec> there) {
    return faults.stream()
        .filter(running -> running.fault.kind() == Kind.UNPLUG)
        .filter(running -> ((When.Span) running.fault.when()).holds(nowNanos))
        .anyMatch(running -> there.stream().anyMatch(spec -> isOn(running.fault, spec.name())));
  }

  /**
   * The fault of an exchange that these instruments answered, to be asked once for each; of several
   * the first in the file.
   */
  Optional<LinkFault> next(List<InstrumentSpec> answered) {
    Set<LinkFault> hits = new LinkedHashSet<>();
    for (Course running : faults) {
      boolean on =
          answered.stream()
              .filter(spec -> fits(running.fault.kind(), spec.speaks()))
              .anyMatch(spec -> isOn(running.fault, spec.name()));
      // All count and draw, so that no fault changes the exchanges that another one hits.
      if (on && running.hits(nowNanos)) {
        hits.add(running.fault);
      }
    }
    return hits.stream().findFirst();
  }

  /** One fault, and how many exchanges it has seen. */
  private static final class Course {
    private final LinkFault fault;
    private final Noise noise;
    private long exchanges;

    private Course(LinkFault fault, Noise noise) {
      this.fault = fault;
      this.noise = noise;
    }

    private boolean hits(long nanos) {
      exchanges++;
      if (fault.when() instanceof When.Exchanges e) {
        return exchanges >= e.first() && exchanges - e.first() < e.count();
      } else if (fault.when() instanceof When.Chance chance) {
        return (noise.symmetric() + 1.0) / 2.0 < chance.probability();
      }
      return ((When.Span) fault.when()).holds(nanos);
    }
  }
}
