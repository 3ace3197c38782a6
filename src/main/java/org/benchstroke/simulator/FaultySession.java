package org.benchstroke.simulator;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.benchstroke.bench.InstrumentSpec;
import org.benchstroke.core.model.Noise;
import org.benchstroke.io.instrument.Language;
import org.benchstroke.io.modbus.ModbusSettings;
import org.benchstroke.io.modbus.RtuFrame;

/**
 * A session with the faults of its link around it. An exchange is what the instrument answers; it
 * is told from others by its answer, and by what was fed just before. One thread at a time.
 */
final class FaultySession implements ByteSession {
  /** MODBUS Application Protocol V1.1b3, 7: server device failure. */
  private static final byte DEVICE_FAILURE = 4;

  private static final int ERROR = 0x80;
  private static final int LAST_READING_FUNCTION = 4;
  private static final int NUMBER_BYTES = 2;
  private static final byte[] NOTHING = {};

  /** Two answers don't come as one. */
  private static final long RIGHT_AFTER_NANOS = 100_000;

  private final LinkScript script;
  private final List<InstrumentSpec> there;
  private final ByteSession session;
  private final Language language;
  private final Map<String, byte[]> answered = new HashMap<>();
  private final Map<Integer, Noise> noises = new HashMap<>();
  private byte[] last = NOTHING;
  private boolean reset;
  private boolean deaf;
  private long delayNanos;
  private long pauseNanos;
  private List<byte[]> pieces = List.of();

  FaultySession(LinkScript script, List<InstrumentSpec> there, ByteSession session) {
    this.script = script;
    this.there = there;
    this.session = session;
    this.language = there.get(0).speaks();
  }

  @Override
  public byte[] feed(byte[] chunk) {
    delayNanos = 0;
    pauseNanos = 0;
    pieces = List.of();
    if (deaf || closed()) {
      return NOTHING;
    }
    byte[] answer = session.feed(chunk);
    if (answer.length == 0) {
      return answer;
    }
    Optional<LinkFault> fault = script.next(answering(answer));
    String question = question(chunk);
    boolean frozen = fault.filter(f -> f.kind() == LinkFault.Kind.FREEZE).isPresent();
    if (!frozen || !answered.containsKey(question)) {
      answered.put(question, answer);
    }
    byte[] sent = fault.map(f -> spoiled(f, question, answer)).orElse(answer);
    last = answer;
    return sent;
  }

  @Override
  public boolean closed() {
    return reset || session.closed() || script.unplugged(there);
  }

  @Override
  public long delayNanos() {
    return delayNanos;
  }

  @Override
  public List<byte[]> pieces(byte[] given) {
    return pieces.isEmpty() ? List.of(given) : pieces;
  }

  @Override
  public long pauseNanos() {
    return pauseNanos;
  }

  @Override
  public boolean deaf() {
    return deaf;
  }

  private byte[] spoiled(LinkFault fault, String question, byte[] answer) {
    return switch (fault.kind()) {
      case DROP, UNPLUG -> NOTHING;
      case LATE -> {
        delayNanos = fault.delayNanos();
        yield answer;
      }
      case SLOW_BYTES -> {
        pieces = bytes(answer);
        pauseNanos = fault.delayNanos();
        yield answer;
      }
      case ONE_BEHIND -> {
        pieces = last.length > 0 ? List.of(last, answer) : List.of();
        pauseNanos = RIGHT_AFTER_NANOS;
        yield joined(last, answer);
      }
      case BAD_CRC -> {
        byte[] other = answer.clone();
        other[other.length - 1] ^= 1;
        yield other;
      }
      case CUT -> Arrays.copyOf(answer, answer.length / 2);
      case GARBAGE -> garbage(fault, answer);
      case EXCEPTION -> exception(answer);
      case FREEZE -> frozen(answered.get(question), answer);
      case RESET -> {
        reset = true;
        yield NOTHING;
      }
      case HALF_OPEN -> {
        deaf = true;
        yield NOTHING;
      }
    };
  }

  private static List<byte[]> bytes(byte[] answer) {
    List<byte[]> bytes = new ArrayList<>();
    for (byte each : answer) {
      bytes.add(new byte[] {each});
    }
    return bytes;
  }

  private static byte[] joined(byte[] first, byte[] second) {
    byte[] both = Arrays.copyOf(first, first.length + second.length);
    System.arraycopy(second, 0, both, first.length, second.length);
    return both;
  }

  private byte[] garbage(LinkFault fault, byte[] answer) {
    Noise noise = noises.computeIfAbsent(fault.number(), script::noise);
    byte[] other = answer.clone();
    for (int i = 0; i < other.length; i++) {
      // Never the byte that was sent.
      other[i] += (byte) (1 + (int) ((noise.symmetric() + 1.0) / 2.0 * 254));
    }
    return other;
  }

  private byte[] exception(byte[] answer) {
    byte function = (byte) (answer[head() + 1] | ERROR);
    if (language.equals(ModbusSettings.RTU)) {
      return RtuFrame.of(Byte.toUnsignedInt(answer[0]), new byte[] {function, DEVICE_FAILURE});
    }
    byte[] refused = Arrays.copyOf(answer, head() + 3);
    refused[head() - 1] = 3;
    refused[head() + 1] = function;
    refused[head() + 2] = DEVICE_FAILURE;
    return refused;
  }

  /** The earlier answer under this request's number; what is written is not held back. */
  private byte[] frozen(byte[] earlier, byte[] answer) {
    if (!modbus()) {
      return earlier;
    }
    if (answer[head() + 1] > LAST_READING_FUNCTION) {
      return answer;
    }
    byte[] held = earlier.clone();
    if (language.equals(ModbusSettings.TCP)) {
      System.arraycopy(answer, 0, held, 0, NUMBER_BYTES);
    }
    return held;
  }

  private List<InstrumentSpec> answering(byte[] answer) {
    if (!modbus() || answer.length <= head()) {
      return there;
    }
    int unit = Byte.toUnsignedInt(answer[head()]);
    return there.stream()
        .filter(spec -> spec.talk(ModbusSettings.class).orElseThrow().unitId() == unit)
        .toList();
  }

  /** What was asked, without the number that tells one request from the next. */
  private String question(byte[] request) {
    int from = language.equals(ModbusSettings.TCP) ? Math.min(NUMBER_BYTES, request.length) : 0;
    return Arrays.toString(Arrays.copyOfRange(request, from, request.length));
  }

  private boolean modbus() {
    return language.equals(ModbusSettings.TCP) || language.equals(ModbusSettings.RTU);
  }

  /** Where a Modbus message has its unit id. */
  private int head() {
    return language.equals(ModbusSettings.TCP) ? 6 : 0;
  }
}
