package org.benchstroke.io.modbus;

import java.util.Arrays;
import java.util.List;
import java.util.Optional;

/** Says what is wrong with bytes that are not the reply to a request. Immutable. */
final class RtuDiagnosis {
  private final int unit;
  private final ModbusRequest request;
  private final List<ModbusRequest> owed;
  private final byte[] sent;
  private final byte[] came;

  /**
   * Looks at everything that came until the line was quiet.
   *
   * @param owed earlier requests to the same unit whose replies have not come
   */
  RtuDiagnosis(
      int unit, ModbusRequest request, List<ModbusRequest> owed, byte[] sent, byte[] came) {
    this.unit = unit;
    this.request = request;
    this.owed = List.copyOf(owed);
    this.sent = sent;
    this.came = came;
  }

  /** Whether the reply is known to be among the bytes, sound or not, so that none is to come. */
  boolean answered() {
    return replyAt() >= 0 || (bearsTheReplysHead() && came.length == wholeLength());
  }

  /** The earlier request that the bytes are the reply to, if they are one. */
  Optional<ModbusRequest> answersEarlier() {
    return Crc.endsSound(came, 0, came.length) ? earlier(came.length) : Optional.empty();
  }

  private Optional<ModbusRequest> earlier(int end) {
    boolean ours = (came[0] & 0xFF) == unit;
    return owed.stream()
        .filter(each -> ours && each.fault(came, 1, end - Crc.BYTES).isEmpty())
        .findFirst();
  }

  String words() {
    int at = replyAt();
    if (at > 0 && echoed()) {
      return "echo: the line gives back what is sent; switch the echo of the adapter off";
    }
    if (at > 0) {
      return Crc.endsSound(came, 0, at)
          ? soundButNotIt(at) + "; then the reply came"
          : "garbage before the reply: " + at + " bytes";
    }
    if (at == 0) {
      return "garbage after the reply: " + (came.length - wholeLength()) + " bytes";
    }
    if (echoed()) {
      return "echo: the line gives back what is sent, and no reply; switch the echo of the adapter"
          + " off";
    }
    if (Crc.endsSound(came, 0, came.length)) {
      return soundButNotIt(came.length);
    }
    if (bearsTheReplysHead() && came.length < wholeLength()) {
      return "cut frame: " + came.length + " of " + wholeLength() + " bytes came";
    }
    return badCrc();
  }

  /** Cut by the deadline: more may be on its way. */
  String cut() {
    return "cut frame: " + came.length + " of " + wholeLength() + " bytes came in time";
  }

  private String soundButNotIt(int end) {
    int bytes = end - RtuFrame.AROUND;
    int from = came[0] & 0xFF;
    if (from != unit) {
      return "wrong address: the reply is from unit id " + from + ", not " + unit;
    }
    Optional<ModbusRequest> earlier = earlier(end);
    if (earlier.isPresent()) {
      return "late reply: it answers an earlier request, " + earlier.get().brief();
    }
    return request
        .fault(came, 1, end - Crc.BYTES)
        .orElse("wrong length: " + bytes + " bytes, " + request.replyBytes() + " are due");
  }

  private String badCrc() {
    if (came.length <= Crc.BYTES) {
      return "garbage: " + came.length + " bytes";
    }
    int computed = Crc.of(came, 0, came.length - Crc.BYTES);
    return "bad CRC: the frame says "
        + crcText(Crc.stated(came, came.length))
        + ", its bytes give "
        + crcText(computed);
  }

  private static String crcText(int crc) {
    return Hex.of(crc & 0xFF) + " " + Hex.of(crc >> 8);
  }

  private boolean echoed() {
    return came.length >= sent.length
        && Arrays.equals(came, 0, sent.length, sent, 0, sent.length)
        && !request.writes();
  }

  private boolean bearsTheReplysHead() {
    return headAt(0);
  }

  private boolean headAt(int at) {
    boolean addressed = came.length > at && (came[at] & 0xFF) == unit;
    return addressed && (came.length == at + 1 || isFunction(came[at + 1] & 0xFF));
  }

  private boolean isFunction(int function) {
    return function == request.function()
        || function == (request.function() | ModbusRequest.EXCEPTION_BIT);
  }

  private int wholeLength() {
    boolean refused = came.length > 1 && (came[1] & ModbusRequest.EXCEPTION_BIT) != 0;
    return RtuFrame.AROUND + (refused ? ModbusRequest.EXCEPTION_BYTES : request.replyBytes());
  }

  /** Where in the bytes the true reply begins; -1 if it is not there. */
  private int replyAt() {
    for (int at = 0; at < came.length; at++) {
      for (int pdu : new int[] {request.replyBytes(), ModbusRequest.EXCEPTION_BYTES}) {
        int end = at + pdu + RtuFrame.AROUND;
        if (headAt(at) && end <= came.length && Crc.endsSound(came, at, end)) {
          int to = end - Crc.BYTES;
          if (request.fault(came, at + 1, to).isEmpty() || request.isRefusedBy(came, at + 1, to)) {
            return at;
          }
        }
      }
    }
    return -1;
  }
}
