package org.benchstroke.io.modbus;

import com.ghgande.j2mod.modbus.msg.ExceptionResponse;
import com.ghgande.j2mod.modbus.msg.ModbusResponse;
import java.util.Arrays;
import java.util.List;
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
 * A line on which Modbus RTU is spoken: a serial port, or a TCP connection to whoever has the port.
 *
 * <p>Source: MODBUS over Serial Line V1.02, 2.5.1. How long a reply is follows from the request, so
 * that no time is lost to find its end.
 *
 * <p>RTU numbers nothing: a late reply looks like the next one. So what waits before a request is
 * thrown away and named; after any fault a wire is drained until it is quiet (a TCP connection is
 * opened anew); and while a reply is still owed, a read that it could pass for is preceded by one
 * of another length, whose reply proves that the owed one can no longer come.
 *
 * <p>A read is asked once more after a bad reply, if time is left, and the answer says so. A write
 * is never sent twice. One thread owns it.
 */
public final class ModbusRtuLine implements ModbusLine {
  /** Adapters hand over bytes in bunches, 16 ms apart at the usual setting (common practice). */
  private static final long QUIET_NANOS = 30_000_000L;

  private final LinkOpener links;
  private final Endpoint endpoint;
  private final RtuTiming timing;
  private final BenchClock clock;
  private final MessageCodec codec = new MessageCodec();
  private final OwedReplies owed = new OwedReplies();
  private final byte[] came = new byte[2 * RtuFrame.LONGEST];
  private Optional<ByteLink> link = Optional.empty();
  private boolean suspect;
  private long lastByteNanos;

  /** Opens nothing yet. */
  public ModbusRtuLine(LinkOpener links, Endpoint endpoint, RtuTiming timing, BenchClock clock) {
    this.links = links;
    this.endpoint = endpoint;
    this.timing = timing;
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
        suspect = timing.wired() || owed.any();
      } catch (LinkException e) {
        throw InstrumentException.of(e, instrument, endpoint.text(), "opening the line");
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
    if (timing.wired()) {
      suspect = true;
    } else {
      close();
    }
  }

  @Override
  public ModbusAnswer exchange(
      String instrument, int unit, ModbusRequest request, Deadline deadline)
      throws InstrumentException {
    Exchange first = new Exchange(instrument, unit, request, deadline);
    try {
      return first.inStep();
    } catch (InstrumentException e) {
      if (e.kind() != Kind.BAD_REPLY || !first.repeatable() || deadline.passed()) {
        throw e;
      }
      try {
        return new Exchange(instrument, unit, request, deadline)
            .inStep()
            .toSecondRequest("asked again after " + first.fault + ": ");
      } catch (InstrumentException again) {
        again.addSuppressed(e);
        throw again;
      }
    }
  }

  /** One request on its way; knows what has come so far, so that each failure can tell. */
  private final class Exchange {
    private final String instrument;
    private final int unit;
    private final ModbusRequest request;
    private final Deadline deadline;
    private final byte[] sent;
    private boolean out;
    private long asked;
    private int count;
    private String fault = "";

    Exchange(String instrument, int unit, ModbusRequest request, Deadline deadline) {
      this.instrument = instrument;
      this.unit = unit;
      this.request = request;
      this.deadline = deadline;
      this.sent = RtuFrame.of(unit, request.pdu());
    }

    /** Makes sure that the reply to come is the reply to this, then asks. */
    ModbusAnswer inStep() throws InstrumentException {
      open(instrument, deadline);
      String told = "";
      // What a write has done is read back in any case.
      if (!request.writes() && owed.couldPassFor(unit, request)) {
        Exchange probe = new Exchange(instrument, unit, request.unlike(), deadline);
        try {
          probe.carryOut();
          told += "in step again by " + Hex.of(probe.sent) + " -> " + probe.message() + ": ";
        } catch (InstrumentException e) {
          fault = probe.fault;
          throw e;
        }
      }
      carryOut();
      ModbusResponse read = request.reply(codec, came, 1, count - Crc.BYTES);
      if (read instanceof ExceptionResponse refused) {
        ModbusRefusal refusal = ModbusRefusal.of(refused);
        throw failure(refusal.kind(), refusal.words());
      }
      return new ModbusAnswer(read, told, Doubt.NONE, asked, lastByteNanos);
    }

    private String message() {
      return Hex.of(came, 1, count - Crc.BYTES);
    }

    /** A read changes nothing; a write may be sent if it never was. */
    boolean repeatable() {
      return !request.writes() || !out;
    }

    /** Has the reply come: its message (its PDU) is a well-formed exception, or sound. */
    private void carryOut() throws InstrumentException {
      ByteLink open = link.orElseThrow();
      List<ModbusRequest> before = owed.of(unit);
      try {
        quieten(open);
        if (deadline.passed()) {
          throw new LinkException(LinkException.Kind.NO_REPLY, "no time was left to send this");
        }
        asked = clock.nanos();
        out = true;
        owed.sent(unit, request);
        open.send(sent, deadline);
        if (!receive(open)) {
          collect(open);
          throw bad(before);
        }
        lastByteNanos = clock.nanos();
        owed.came(unit, request);
      } catch (LinkException e) {
        throw lost(e, before);
      }
    }

    /** Sees to it that nothing of before is on the line, and that it was silent long enough. */
    private void quieten(ByteLink open) throws LinkException, InstrumentException {
      if (suspect) {
        drain(open);
        lastByteNanos = clock.nanos();
        suspect = false;
      } else if (timing.wired()) {
        await(lastByteNanos + (long) (timing.silenceNanos() * clock.scale()));
      }
      int waiting = open.drain(0, deadline);
      if (waiting > 0) {
        suspect = true;
        distrust();
        fault = "late reply: " + waiting + " bytes were waiting before the request";
        throw failure(Kind.BAD_REPLY, fault);
      }
    }

    private void drain(ByteLink open) throws LinkException, InstrumentException {
      try {
        open.drain(Math.max(QUIET_NANOS, timing.silenceNanos()), deadline);
      } catch (LinkException e) {
        if (e.kind() == LinkException.Kind.PORT_GONE) {
          throw e;
        }
        fault = "garbage: " + e.getMessage();
        throw failure(Kind.BAD_REPLY, fault);
      }
    }

    private void await(long nanos) throws LinkException {
      try {
        clock.waitExactlyUntil(nanos);
      } catch (InterruptedException e) {
        Thread.currentThread().interrupt();
        throw new LinkException(LinkException.Kind.NO_REPLY, "the program was asked to end", e);
      }
    }

    /** Receives until the reply is there (true), or can no longer be (false). */
    private boolean receive(ByteLink open) throws LinkException {
      while (true) {
        count += open.receive(came, count, came.length - count, deadline);
        int due = due();
        if (count >= due) {
          return count == due && Crc.endsSound(came, 0, count) && echoes();
        }
      }
    }

    /** Whether the reply to a write says what was sent up to its data, or refuses it. */
    private boolean echoes() {
      int echoed = RtuFrame.AROUND + request.replyBytes() - Crc.BYTES;
      return !request.writes()
          || (came[1] & ModbusRequest.EXCEPTION_BIT) != 0
          || Arrays.equals(sent, 0, echoed, came, 0, echoed);
    }

    /** How many bytes are due, judged by those that came; 0 if they can't be the reply. */
    private int due() {
      if ((came[0] & 0xFF) != unit) {
        return 0;
      }
      int whole = RtuFrame.AROUND + request.replyBytes();
      if (count < 2) {
        return whole;
      }
      int function = came[1] & 0xFF;
      if (function == (request.function() | ModbusRequest.EXCEPTION_BIT)) {
        return RtuFrame.AROUND + ModbusRequest.EXCEPTION_BYTES;
      }
      boolean counted = count < 3 || request.writes() || (came[2] & 0xFF) + 2 == whole - 3;
      return function == request.function() && counted ? whole : 0;
    }

    /** Takes what else comes, for the diagnosis, until the line is quiet. */
    private void collect(ByteLink open) throws LinkException {
      try {
        while (count < came.length && !deadline.passed()) {
          Deadline quiet = Deadline.inWall(clock, QUIET_NANOS);
          Deadline until = quiet.atNanos() < deadline.atNanos() ? quiet : deadline;
          count += open.receive(came, count, came.length - count, until);
        }
        suspect = true;
      } catch (LinkException e) {
        if (e.kind() == LinkException.Kind.PORT_GONE) {
          throw e;
        }
      }
      lastByteNanos = clock.nanos();
    }

    private InstrumentException bad(List<ModbusRequest> before) {
      RtuDiagnosis diagnosis = diagnosis(before);
      if (diagnosis.answered()) {
        owed.came(unit, request);
      }
      diagnosis.answersEarlier().ifPresent(earlier -> owed.came(unit, earlier));
      if (!timing.wired()) {
        close();
      }
      fault = diagnosis.words();
      return failure(Kind.BAD_REPLY, fault + unsure());
    }

    private InstrumentException lost(LinkException e, List<ModbusRequest> before) {
      suspect = true;
      if (!timing.wired() || e.kind() == LinkException.Kind.PORT_GONE) {
        close();
      }
      fault = words(e, before);
      LinkException told = new LinkException(e.kind(), fault + unsure(), e);
      return InstrumentException.of(told, instrument, endpoint.text(), text());
    }

    /** "Nothing came" is no longer true of a cut frame. */
    private String words(LinkException e, List<ModbusRequest> before) {
      if (count == 0) {
        return e.getMessage();
      }
      String cut = diagnosis(before).cut();
      return e.kind() == LinkException.Kind.NO_REPLY ? cut : cut + "; " + e.getMessage();
    }

    private RtuDiagnosis diagnosis(List<ModbusRequest> before) {
      return new RtuDiagnosis(unit, request, before, sent, Arrays.copyOf(came, count));
    }

    private InstrumentException failure(Kind kind, String detail) {
      return new InstrumentException(kind, instrument, endpoint.text(), text(), detail);
    }

    private String text() {
      String reply = count == 0 ? "nothing" : Hex.of(came, 0, count);
      return "unit id " + unit + ": " + Hex.of(sent) + " -> " + reply;
    }

    private String unsure() {
      if (!request.writes()) {
        return "";
      }
      return out ? "; it is not known whether the write took effect" : "; nothing was written";
    }
  }
}
