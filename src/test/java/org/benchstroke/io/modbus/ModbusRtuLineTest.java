package org.benchstroke.io.modbus;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import java.time.Instant;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HexFormat;
import java.util.List;
import java.util.SplittableRandom;
import org.benchstroke.core.clock.Deadline;
import org.benchstroke.core.clock.VirtualClock;
import org.benchstroke.io.instrument.InstrumentException;
import org.benchstroke.io.instrument.InstrumentException.Kind;
import org.benchstroke.io.transport.Endpoint;
import org.benchstroke.io.transport.FakePeer;
import org.benchstroke.io.transport.PortName;
import org.benchstroke.io.transport.PtyPair;
import org.junit.jupiter.api.Test;

class ModbusRtuLineTest {
  private static final HexFormat HEX = HexFormat.ofDelimiter(" ").withUpperCase();
  private static final Endpoint PORT =
      new Endpoint.Serial(new PortName.Device("/dev/invalid"), PtyPair.SETTINGS);
  private static final ModbusRequest FLOAT = ModbusRequest.read(Register.Table.INPUT, 0, 2);

  private final VirtualClock clock = new VirtualClock(Instant.EPOCH);
  private final FakeModbusBox box = new FakeModbusBox();

  private ModbusRtuLine line(FakePeer peer) {
    return new ModbusRtuLine(peer, PORT, RtuTiming.of(PORT), clock);
  }

  private Deadline soon() {
    return Deadline.in(clock, 500_000_000L);
  }

  @Test
  void aByteBehindTheReplyIsGarbage() throws InstrumentException {
    box.holds(0, 50.0f);
    int[] asked = {0};
    FakePeer peer =
        new FakePeer(
            clock,
            sent -> {
              byte[] reply = box.answerRtu(sent);
              return asked[0]++ == 0 ? Arrays.copyOf(reply, reply.length + 1) : reply;
            });
    ModbusAnswer answer = line(peer).exchange("module", 17, FLOAT, soon());
    assertThat(answer.note()).startsWith("asked again after garbage after the reply: 1 bytes");
    assertThat(HEX.formatHex(answer.data())).isEqualTo("42 48 00 00");
  }

  @Test
  void twiceBadIsABadReplyThatNamesTheFrame() {
    FakePeer peer = new FakePeer(clock, sent -> HEX.parseHex("11 04 04 42 48 00 00 00 00"));
    InstrumentException failure =
        catchThrowableOfType(
            InstrumentException.class, () -> line(peer).exchange("module", 17, FLOAT, soon()));
    assertThat(failure.kind()).isEqualTo(Kind.BAD_REPLY);
    assertThat(failure)
        .hasMessageContaining("module at serial:/dev/invalid: bad reply: bad CRC: the frame says")
        .hasMessageContaining("unit id 17: 11 04 00 00 00 02 73 5B -> 11 04 04 42 48 00 00 00 00");
    assertThat(peer.sent()).isEqualTo(2);
  }

  @Test
  void aWriteIsSentOnceWhateverComesBack() {
    FakePeer peer = new FakePeer(clock, sent -> HEX.parseHex("11 05 00"));
    InstrumentException failure =
        catchThrowableOfType(
            InstrumentException.class,
            () -> line(peer).exchange("module", 17, ModbusRequest.writeCoil(0, true), soon()));
    assertThat(failure.kind()).isEqualTo(Kind.NO_REPLY);
    assertThat(failure).hasMessageContaining("it is not known whether the write took effect");
    assertThat(peer.sent()).isEqualTo(1);
  }

  @Test
  void threeAndAHalfCharactersOfSilenceComeBeforeEachRequest() throws InstrumentException {
    List<Long> sentAt = new ArrayList<>();
    FakePeer peer =
        new FakePeer(
            clock,
            sent -> {
              sentAt.add(clock.nanos());
              return box.answerRtu(sent);
            });
    ModbusRtuLine line = line(peer);
    long quiet = RtuTiming.of(PORT).silenceNanos();
    // 10 bits a character: no parity, one stop bit.
    assertThat(quiet).isEqualTo(1_822_917L);
    for (int i = 0; i < 5; i++) {
      ModbusAnswer answer = line.exchange("module", 17, FLOAT, soon());
      assertThat(sentAt.get(i)).isEqualTo(answer.askedNanos());
      clock.waitUntil(clock.nanos() + (i == 3 ? 50_000_000L : 0));
    }
    long exchange = 2_000_000L;
    assertThat(sentAt.get(1) - sentAt.get(0)).isGreaterThanOrEqualTo(quiet);
    assertThat(sentAt.get(4) - sentAt.get(3)).isLessThan(50_000_000L + exchange + quiet);
  }

  /**
   * A device that answers late, not at all, twice, or with noise; each register holds a number of
   * its own.
   */
  private final class Unruly {
    private final SplittableRandom random;
    private byte[] late = {};

    Unruly(long seed) {
      random = new SplittableRandom(seed);
    }

    byte[] answer(byte[] sent) {
      byte[] reply = box.answerRtu(sent);
      byte[] before = late;
      late = new byte[0];
      switch (random.nextInt(8)) {
        case 0 -> {
          late = reply;
          return before;
        }
        case 1 -> {
          return before;
        }
        case 2 -> reply[random.nextInt(reply.length)] ^= (byte) (1 << random.nextInt(8));
        case 3 -> reply = Arrays.copyOf(reply, random.nextInt(reply.length));
        default -> {
          // As it should be, behind what is late.
        }
      }
      byte[] both = Arrays.copyOf(before, before.length + reply.length);
      System.arraycopy(reply, 0, both, before.length, reply.length);
      return both;
    }
  }

  @Test
  void whateverTheLineDoesNoReplyPassesForAnother() {
    for (int address = 0; address < 40; address++) {
      box.word(address, 1000 + address);
    }
    int right = 0;
    for (long seed = 1; seed <= 200; seed++) {
      Unruly device = new Unruly(seed);
      SplittableRandom random = new SplittableRandom(-seed);
      ModbusRtuLine line = line(new FakePeer(clock, device::answer));
      for (int i = 0; i < 50; i++) {
        int address = random.nextInt(36);
        int count = 1 + random.nextInt(3);
        ModbusRequest request = ModbusRequest.read(Register.Table.HOLDING, address, count);
        try {
          byte[] data = line.exchange("module", 17, request, soon()).data();
          assertThat((data[0] & 0xFF) << 8 | (data[1] & 0xFF))
              .as("seed " + seed + ", exchange " + i)
              .isEqualTo(1000 + address);
          right++;
        } catch (InstrumentException e) {
          assertThat(e.kind()).isIn(Kind.NO_REPLY, Kind.BAD_REPLY);
        }
      }
    }
    assertThat(right).isGreaterThan(4000);
  }
}
