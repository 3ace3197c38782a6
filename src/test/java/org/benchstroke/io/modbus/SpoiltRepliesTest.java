package org.benchstroke.io.modbus;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.fail;

import java.nio.ByteBuffer;
import java.time.Instant;
import java.util.Arrays;
import java.util.HexFormat;
import java.util.Optional;
import java.util.SplittableRandom;
import org.benchstroke.core.clock.Deadline;
import org.benchstroke.core.clock.VirtualClock;
import org.benchstroke.io.instrument.InstrumentException;
import org.benchstroke.io.transport.FakePeer;
import org.benchstroke.io.transport.Replay;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * Replies that are spoilt in every way: the data of a reply that is not one to the request is never
 * given, and nothing but the four errors of an instrument comes of it. What is a reply is said here
 * by itself, byte by byte (MODBUS Application Protocol V1.1b3, 6 and 7; over Serial Line V1.02).
 */
class SpoiltRepliesTest {
  private static final int UNIT = 17;
  private static final int EACH = 25_000;

  private final VirtualClock clock = new VirtualClock(Instant.EPOCH);
  private byte[] request = {};
  private byte[] reply = {};

  @ParameterizedTest
  @ValueSource(longs = {1, 2, 3, 4, 5, 6})
  void onlyWhatAnswersOverTcpIsBelieved(long seed) {
    SplittableRandom random = new SplittableRandom(seed);
    FakePeer peer =
        new FakePeer(
            clock,
            sent -> {
              request = Arrays.copyOfRange(sent, 7, sent.length);
              byte[] sound = answer(request, random);
              byte[] frame = MbapHeader.frame(word(sent, 0), UNIT, sound);
              byte[] spoilt = spoilt(frame, random);
              boolean framed = spoilt.length >= 8 && Arrays.equals(spoilt, 0, 7, frame, 0, 7);
              boolean whole = framed && spoilt.length == frame.length;
              reply = whole ? Arrays.copyOfRange(spoilt, 7, spoilt.length) : new byte[0];
              return spoilt;
            });
    ModbusTcpLine line = new ModbusTcpLine(peer, Replay.ENDPOINT, clock);
    askAll(line, random);
  }

  @ParameterizedTest
  @ValueSource(longs = {1, 2, 3, 4, 5, 6})
  void onlyWhatAnswersOverRtuIsBelieved(long seed) {
    SplittableRandom random = new SplittableRandom(seed);
    FakePeer peer =
        new FakePeer(
            clock,
            sent -> {
              request = Arrays.copyOfRange(sent, 1, sent.length - 2);
              byte[] pdu = spoilt(answer(request, random), random);
              byte[] frame = RtuFrame.of(random.nextInt(50) == 0 ? UNIT + 1 : UNIT, pdu);
              byte[] spoilt = random.nextInt(4) == 0 ? spoilt(frame, random) : frame;
              int end = Math.max(1, spoilt.length - 2);
              reply = isSealed(spoilt) ? Arrays.copyOfRange(spoilt, 1, end) : new byte[0];
              return spoilt;
            });
    // Over TCP, so that no line has to be quiet first.
    ModbusRtuLine line = new ModbusRtuLine(peer, Replay.ENDPOINT, RtuTiming.NONE, clock);
    askAll(line, random);
  }

  /** Whether it is from the unit and the CRC over all of it is 0 (V1.02, 6.2.2), bit by bit. */
  private static boolean isSealed(byte[] frame) {
    int crc = 0xFFFF;
    for (byte each : frame) {
      crc ^= each & 0xFF;
      for (int bit = 0; bit < 8; bit++) {
        crc = (crc & 1) == 0 ? crc >> 1 : (crc >> 1) ^ 0xA001;
      }
    }
    return frame.length > 3 && frame[0] == UNIT && crc == 0;
  }

  private void askAll(ModbusLine line, SplittableRandom random) {
    int believed = 0;
    int failed = 0;
    for (int i = 0; i < EACH; i++) {
      ModbusRequest asked = question(random);
      Optional<byte[]> data = Optional.empty();
      try {
        data = Optional.of(line.exchange("module", UNIT, asked, soon()).data());
      } catch (InstrumentException e) {
        failed++;
      }
      if (data.isPresent()) {
        believed++;
        if (!Arrays.equals(data.get(), saidBy(reply).orElse(null))) {
          fail("%s answered by %s was taken for %s", hex(request), hex(reply), hex(data.get()));
        }
      }
    }
    assertThat(believed).isGreaterThan(EACH / 50);
    assertThat(failed).isGreaterThan(EACH / 2);
  }

  private Deadline soon() {
    return Deadline.in(clock, 200_000_000L);
  }

  private static ModbusRequest question(SplittableRandom random) {
    int address = random.nextInt(65_400);
    return switch (random.nextInt(7)) {
      case 0 -> ModbusRequest.read(Register.Table.COIL, address, 1 + random.nextInt(40));
      case 1 -> ModbusRequest.read(Register.Table.DISCRETE, address, 1 + random.nextInt(40));
      case 2 -> ModbusRequest.read(Register.Table.HOLDING, address, 1 + random.nextInt(125));
      case 3 -> ModbusRequest.read(Register.Table.INPUT, address, 1 + random.nextInt(4));
      case 4 -> ModbusRequest.writeCoil(address, random.nextBoolean());
      case 5 -> ModbusRequest.write(address, bytes(2, random), random.nextBoolean());
      default -> ModbusRequest.write(address, bytes(8, random), true);
    };
  }

  private static byte[] bytes(int count, SplittableRandom random) {
    byte[] bytes = new byte[count];
    random.nextBytes(bytes);
    return bytes;
  }

  private static byte[] answer(byte[] request, SplittableRandom random) {
    if (random.nextInt(20) == 0) {
      return new byte[] {(byte) (request[0] | 0x80), (byte) random.nextInt(256)};
    }
    if (request[0] > 4) {
      return Arrays.copyOf(request, 5);
    }
    byte[] data = bytes(dataBytes(request), random);
    return ByteBuffer.allocate(2 + data.length)
        .put(request[0])
        .put((byte) data.length)
        .put(data)
        .array();
  }

  private static int dataBytes(byte[] request) {
    int count = word(request, 3);
    return request[0] <= 2 ? (count + 7) / 8 : 2 * count;
  }

  /** Now and then as it was; else with bytes changed, lost, doubled, or more behind them. */
  private static byte[] spoilt(byte[] frame, SplittableRandom random) {
    byte[] spoilt = frame.clone();
    int at = random.nextInt(frame.length);
    return switch (random.nextInt(7)) {
      case 0 -> spoilt;
      case 1 -> {
        spoilt[at] ^= (byte) (1 << random.nextInt(8));
        yield spoilt;
      }
      case 2 -> {
        spoilt[at] = (byte) random.nextInt(256);
        spoilt[Math.min(1, at)] = (byte) random.nextInt(256);
        yield spoilt;
      }
      case 3 -> Arrays.copyOf(frame, Math.max(1, at));
      case 4 -> Arrays.copyOf(frame, frame.length + 1 + random.nextInt(3));
      case 5 -> {
        System.arraycopy(frame, at, spoilt, 0, frame.length - at);
        yield spoilt;
      }
      default -> {
        // The byte count, or what stands where it would.
        int count = Math.min(frame.length - 1, frame.length > 8 ? 8 : 1);
        spoilt[count] = (byte) random.nextInt(256);
        yield spoilt;
      }
    };
  }

  /** What a message says in answer to the request; empty if it is none. */
  private Optional<byte[]> saidBy(byte[] pdu) {
    if (request[0] > 4) {
      return Arrays.equals(pdu, Arrays.copyOf(request, 5))
          ? Optional.of(new byte[0])
          : Optional.empty();
    }
    int bytes = dataBytes(request);
    boolean sound =
        pdu.length == 2 + bytes && pdu[0] == request[0] && Byte.toUnsignedInt(pdu[1]) == bytes;
    return sound ? Optional.of(Arrays.copyOfRange(pdu, 2, pdu.length)) : Optional.empty();
  }

  private static int word(byte[] bytes, int at) {
    return ((bytes[at] & 0xFF) << 8) | (bytes[at + 1] & 0xFF);
  }

  private static String hex(byte[] bytes) {
    return HexFormat.ofDelimiter(" ").formatHex(bytes);
  }
}
