package org.benchstroke.simulator;

import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;

/**
 * The message exchange of IEEE 488.2 with the headers of SCPI-1999 over a stream: messages end with
 * a line feed, units are parted by semicolons, all answers of a message come in one line. After a
 * command error the rest of its message is thrown away.
 *
 * <p>A stream has no moment at which an answer is read, so a query that is interrupted (-410) or
 * unterminated (-420) can't be told and is never queued.
 */
public final class ScpiSession implements ByteSession {
  private static final int LONGEST_MESSAGE = 4096;

  private final ScpiInstrument instrument;
  private final ScpiStatus status = new ScpiStatus();
  private final ScpiMessages messages;
  private final StringBuilder message = new StringBuilder();

  /** Of the message that is being carried out. */
  private final List<String> answers = new ArrayList<>();

  private boolean identified;
  private boolean overrun;

  ScpiSession(ScpiInstrument instrument) {
    this.instrument = instrument;
    List<ScpiCommand> commands = new ArrayList<>(instrument.commands());
    commands.add(ScpiCommand.query("SYSTem:ERRor[:NEXT]", status::nextError));
    commands.add(ScpiCommand.query("*IDN", this::identify));
    commands.add(ScpiCommand.event("*RST", instrument::reset));
    commands.add(ScpiCommand.event("*CLS", status::clear));
    commands.add(ScpiCommand.query("*ESR", () -> Integer.toString(status.readEvents())));
    commands.add(ScpiCommand.query("*STB", () -> Integer.toString(statusByte())));
    commands.add(ScpiCommand.query("*ESE", () -> Integer.toString(status.eventEnable())));
    commands.add(ScpiCommand.query("*SRE", () -> Integer.toString(status.serviceEnable())));
    commands.add(
        ScpiCommand.setting("*ESE", text -> status.eventEnable(ScpiParameters.mask(text))));
    commands.add(
        ScpiCommand.setting("*SRE", text -> status.serviceEnable(ScpiParameters.mask(text))));
    commands.add(ScpiCommand.query("*OPC", () -> "1"));
    commands.add(ScpiCommand.event("*OPC", status::operationComplete));
    commands.add(ScpiCommand.query("*TST", () -> "0"));
    commands.add(ScpiCommand.event("*WAI", () -> {}));
    this.messages = new ScpiMessages(commands);
  }

  @Override
  public byte[] feed(byte[] chunk) {
    StringBuilder answer = new StringBuilder();
    for (byte each : chunk) {
      if (each == '\n') {
        answer.append(end());
      } else if (message.length() < LONGEST_MESSAGE) {
        message.append((char) Byte.toUnsignedInt(each));
      } else {
        overrun = true;
      }
    }
    return answer.toString().getBytes(StandardCharsets.US_ASCII);
  }

  @Override
  public boolean closed() {
    return false;
  }

  private String end() {
    String whole = message.toString();
    message.setLength(0);
    answers.clear();
    identified = false;
    if (overrun) {
      overrun = false;
      status.add(ScpiError.Code.INPUT_OVERRUN);
    } else {
      carryOut(messages.units(whole));
    }
    return answers.isEmpty() ? "" : String.join(";", answers) + "\n";
  }

  private void carryOut(List<ScpiMessages.Unit> units) {
    boolean commandError = false;
    for (int i = 0; i < units.size() && !commandError; i++) {
      try {
        carryOut(units.get(i));
      } catch (ScpiError error) {
        status.add(error.code());
        int bit = error.code().eventBit();
        commandError = bit == ScpiError.Code.UNDEFINED_HEADER.eventBit();
      }
    }
  }

  private void carryOut(ScpiMessages.Unit unit) throws ScpiError {
    if (unit.query() && identified) {
      throw new ScpiError(ScpiError.Code.UNTERMINATED_AFTER_IDN);
    }
    String answer = unit.carryOut();
    if (unit.query()) {
      answers.add(answer);
    }
  }

  private String identify() {
    identified = true;
    return instrument.identity();
  }

  private int statusByte() {
    return status.statusByte(!answers.isEmpty());
  }
}
