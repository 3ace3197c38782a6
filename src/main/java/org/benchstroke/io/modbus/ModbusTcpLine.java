package org.benchstroke.io.modbus;

import com.ghgande.j2mod.modbus.msg.ExceptionResponse;
import com.ghgande.j2mod.modbus.msg.ModbusResponse;
import java.util.Optional;
import org.benchstroke.core.clock.BenchClock;
import org.benchstroke.core.clock.Deadline;
import org.benchstroke.io.instrument.Doubt;
import org.benchstroke.io.instrument.InstrumentException;
import org.benchstroke.io.instrument.InstrumentException.Kind;
import org.benchstroke.io.transport.ByteLink;
import org.benchstroke.io.transport.Endpoint;
import org.benchstroke.io.transport.LinkException;
import org.benchstroke.io.transport.LinkOpener;

/**
 * One Modbus TCP connection, shared by every instrument behind the same endpoint.
 *
 * <p>Each exchange has a transaction number of its own, one total deadline, and a reply that is
 * checked in full. After anything but a sound reply the connection is closed, and opened again at
 * the next exchange: a late reply then has nowhere to arrive. No request is ever sent twice.
 *
 * <p>One thread owns it.
 */
public final class ModbusTcpLine implements ModbusLine {
  private static final int LONGEST_FRAME = MbapHeader.UNCOUNTED + MbapHeader.LONGEST;

  private final LinkOpener links;
  private final Endpoint endpoint;
  private final BenchClock clock;
  private final MessageCodec codec = new MessageCodec();

  /** Room for more than one frame: bytes beyond the reply must be seen, not left behind. */
  private final byte[] came = new byte[2 * LONGEST_FRAME];

  private Optional<ByteLink> link = Optional.empty();
  private int transaction;

  /** Opens nothing yet. */
  public ModbusTcpLine(LinkOpener links, Endpoint endpoint, BenchClock clock) {
    this.links = links;
    this.endpoint = endpoint;
    this.clock = clock;
  }

  @Override
  public Endpoint endpoint() {
    return endpoint;
  }

  @Override
  public void open(String instrument, Deadline deadline) throws InstrumentException {
    if (link.isEmpty()) {
      try {
        link = Optional.of(links.open(endpoint, deadline));
      } catch (LinkException e) {
        throw InstrumentException.of(e, instrument, endpoint.text(), "opening the connection");
      }
    }
  }

  @Override
  public void close() {
    link.ifPresent(ByteLink::close);
    link = Optional.empty();
  }

  @Override
  public void distrust() {
    close();
  }

  private InstrumentException failure(
      Kind kind, String instrument, String exchange, String detail) {
    return new InstrumentException(kind, instrument, endpoint.text(), exchange, detail);
  }

  @Override
  public ModbusAnswer exchange(
      String instrument, int unit, ModbusRequest request, Deadline deadline)
      throws InstrumentException {
    open(instrument, deadline);
    transaction = transaction % 0xFFFF + 1;
    Exchange exchange = new Exchange(instrument, unit, request, transaction);
    boolean sound = false;
    try {
      long asked = clock.nanos();
      int end = exchange.carryOut(link.orElseThrow(), deadline);
      long answered = clock.nanos();
      sound = true;
      ModbusResponse read = request.reply(codec, came, MbapHeader.BYTES, end);
      if (read instanceof ExceptionResponse refused) {
        ModbusRefusal refusal = ModbusRefusal.of(refused);
        throw failure(refusal.kind(), instrument, exchange.text(), refusal.words());
      }
      return new ModbusAnswer(read, "", Doubt.NONE, asked, answered);
    } finally {
      if (!sound) {
        close();
      }
    }
  }

  /** One request on its way; knows what has come so far, so that each failure can tell. */
  private final class Exchange {
    private final String instrument;
    private final int unit;
    private final ModbusRequest request;
    private final int number;
    private final byte[] sent;

    private int count;

    Exchange(String instrument, int unit, ModbusRequest request, int number) {
      this.instrument = instrument;
      this.unit = unit;
      this.request = request;
      this.number = number;
      this.sent = MbapHeader.frame(number, unit, request.pdu());
    }

    /** Returns where the reply ends: its message is a well-formed exception, or sound. */
    int carryOut(ByteLink open, Deadline deadline) throws InstrumentException {
      try {
        if (deadline.passed()) {
          throw new LinkException(LinkException.Kind.NO_REPLY, "no time was left to send this");
        }
        open.send(sent, deadline);
        receiveUpTo(MbapHeader.BYTES, open, deadline);
        MbapHeader header = MbapHeader.of(came);
        require(header.fault(number, unit));
        int whole = MbapHeader.UNCOUNTED + header.length();
        receiveUpTo(whole, open, deadline);
        require(extra(whole));
        if (!request.isRefusedBy(came, MbapHeader.BYTES, whole)) {
          require(request.fault(came, MbapHeader.BYTES, whole));
        }
        return whole;
      } catch (LinkException e) {
        LinkException told = new LinkException(e.kind(), words(e) + unsure(), e);
        throw InstrumentException.of(told, instrument, endpoint.text(), text());
      }
    }

    String text() {
      String reply = count == 0 ? "nothing" : Hex.of(came, 0, count);
      return "unit id " + unit + ": " + Hex.of(sent) + " -> " + reply;
    }

    private void receiveUpTo(int wanted, ByteLink open, Deadline deadline) throws LinkException {
      while (count < wanted) {
        count += open.receive(came, count, came.length - count, deadline);
      }
    }

    private Optional<String> extra(int whole) {
      return count == whole
          ? Optional.empty()
          : Optional.of(
              "garbage after the reply: " + (count - whole) + " bytes more than one reply came");
    }

    private void require(Optional<String> fault) throws InstrumentException {
      if (fault.isPresent()) {
        throw failure(Kind.BAD_REPLY, instrument, text(), fault.get() + unsure());
      }
    }

    /** "Nothing came" is no longer true of a cut frame. */
    private String words(LinkException e) {
      if (count == 0) {
        return e.getMessage();
      }
      return e.kind() == LinkException.Kind.NO_REPLY ? cut() : cut() + "; " + e.getMessage();
    }

    private String cut() {
      boolean headed = count >= MbapHeader.BYTES;
      String whole = headed ? " of " + (MbapHeader.UNCOUNTED + MbapHeader.of(came).length()) : "";
      return "cut frame: " + count + whole + " bytes came in time";
    }

    private String unsure() {
      return request.writes() ? "; it is not known whether the write took effect" : "";
    }
  }
}
