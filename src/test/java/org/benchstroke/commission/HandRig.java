package org.benchstroke.commission;

import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.function.UnaryOperator;
import org.benchstroke.acceptance.VirtualBench;
import org.benchstroke.bench.BenchFile;
import org.benchstroke.bench.BenchFileReader;
import org.benchstroke.core.clock.Deadline;
import org.benchstroke.core.clock.VirtualClock;
import org.benchstroke.core.toml.FileMistakes;
import org.benchstroke.core.toml.TomlDocument;
import org.benchstroke.io.transport.ByteLink;
import org.benchstroke.io.transport.Endpoint;
import org.benchstroke.io.transport.LinkException;
import org.benchstroke.io.transport.LinkOpener;
import org.benchstroke.procedure.Caution;
import org.benchstroke.run.Answer;
import org.benchstroke.run.BenchAssembly;
import org.benchstroke.run.Operator;
import org.benchstroke.run.Question;
import org.benchstroke.run.StopSwitch;
import org.benchstroke.simulator.SimulatedBench;
import org.benchstroke.simulator.SimulatedLinks;
import org.benchstroke.simulator.Simulation;
import org.benchstroke.unit.UnitType;

/** A simulated bench on the virtual clock whose links can be cut, changed and listened to. */
final class HandRig {
  final Simulation simulation = VirtualBench.simulation("healthy-b");
  final VirtualClock clock = new VirtualClock(Instant.parse("2026-06-01T08:00:00Z"));
  final SimulatedBench unit = SimulatedBench.of(simulation);
  final StopSwitch stop = new StopSwitch();
  final List<String> told = new ArrayList<>();
  final List<Caution> cautions = new ArrayList<>();

  /** Every request that was sent: text, or bytes in hex. */
  final List<String> sent = new ArrayList<>();

  UnaryOperator<String> benchText = UnaryOperator.identity();
  UnaryOperator<byte[]> replies = UnaryOperator.identity();
  Caution refused;
  boolean cut;

  String text() {
    return benchText.apply(unit.benchToml(Map.of(), 1.0));
  }

  BenchFile file() {
    try {
      return BenchFileReader.read(TomlDocument.parse("bench.toml", text()));
    } catch (FileMistakes e) {
      throw new IllegalStateException(e.getMessage(), e);
    }
  }

  UnitType unitType() {
    return simulation.unitType();
  }

  HandBench hands() {
    BenchFile file = file();
    return new HandBench(
        file,
        unitType(),
        BenchAssembly.of(file, unitType(), links(), clock, Operator.NOBODY),
        clock,
        new Person(),
        stop,
        told::add);
  }

  LinkOpener links() {
    LinkOpener sound = SimulatedLinks.on(unit, clock);
    return (endpoint, deadline) -> {
      if (cut) {
        throw new LinkException(LinkException.Kind.PORT_GONE, "the cable is out");
      }
      return new Wire(sound.open(endpoint, deadline));
    };
  }

  private final class Person implements Operator {
    @Override
    public Answer answer(Question question) {
      Caution caution = question.warning().orElseThrow();
      cautions.add(caution);
      return caution == refused ? Answer.no() : new Answer.Yes("yes");
    }

    @Override
    public void countDown() {
      told.add("count-down");
    }
  }

  private final class Wire implements ByteLink {
    private final ByteLink inner;

    Wire(ByteLink inner) {
      this.inner = inner;
    }

    @Override
    public Endpoint endpoint() {
      return inner.endpoint();
    }

    @Override
    public void send(byte[] bytes, Deadline deadline) throws LinkException {
      check();
      boolean text = bytes[0] >= ' ';
      sent.add(
          text
              ? new String(bytes, StandardCharsets.US_ASCII).strip()
              : java.util.HexFormat.of().withUpperCase().formatHex(bytes, 6, bytes.length));
      inner.send(bytes, deadline);
    }

    @Override
    public int receive(byte[] buffer, int offset, int length, Deadline deadline)
        throws LinkException {
      check();
      int count = inner.receive(buffer, offset, length, deadline);
      byte[] came = java.util.Arrays.copyOfRange(buffer, offset, offset + count);
      System.arraycopy(replies.apply(came), 0, buffer, offset, count);
      return count;
    }

    @Override
    public int drain(long quietNanos, Deadline deadline) throws LinkException {
      check();
      return inner.drain(quietNanos, deadline);
    }

    @Override
    public void close() {
      inner.close();
    }

    private void check() throws LinkException {
      if (cut) {
        throw new LinkException(LinkException.Kind.PORT_GONE, "the cable is out");
      }
    }
  }
}
