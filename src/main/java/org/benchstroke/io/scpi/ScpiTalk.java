package org.benchstroke.io.scpi;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.SortedMap;
import java.util.TreeMap;
import org.benchstroke.core.clock.Deadline;
import org.benchstroke.io.instrument.Identity;
import org.benchstroke.io.instrument.InstrumentException;
import org.benchstroke.io.instrument.TextReply;

/** What SCPI instruments have in common, said on behalf of one of them. The runner's thread. */
final class ScpiTalk {
  private static final String NEXT_ERROR = "SYSTem:ERRor?";
  private static final String IDENTITY = "*IDN?";
  private static final String EVENTS = "*ESR?";
  private static final int MOST_ERRORS = 20;
  private static final String OTHERWISE =
      " if this instrument has no such status byte, write check = \"error queue\" in its"
          + " [instrument.talk]";

  /** The bits of the standard event status register that are errors (IEEE 488.2 11.5.1). */
  private static final SortedMap<Integer, String> EVENT_ERRORS =
      new TreeMap<>(
          Map.of(
              0x20, "command error",
              0x10, "execution error",
              0x08, "device-specific error",
              0x04, "query error"));

  private final String name;
  private final ScpiLine line;

  ScpiTalk(String name, ScpiLine line) {
    this.name = name;
    this.line = line;
  }

  String name() {
    return name;
  }

  ScpiLine line() {
    return line;
  }

  /**
   * Sends a command, waits until it is carried out where the instrument needs it, and asks whether
   * it went wrong.
   *
   * @return the last question's reply with the command's stamp: the command took effect in between
   */
  TextReply tell(String command, Deadline deadline) throws InstrumentException {
    long sent = line.tell(name, command, deadline);
    switch (line.habits().settling()) {
      case NONE -> {}
      case WAIT -> line.tell(name, ScpiHabits.Settling.WAIT.key(), deadline);
      case OPERATION_COMPLETE -> requireComplete(command, deadline);
    }
    TextReply last =
        switch (line.habits().checking()) {
          case STATUS_BYTE -> checkStatus(command, deadline);
          case ERROR_QUEUE -> checkQueue(command, deadline);
          case EVENT_STATUS -> checkEvents(command, deadline);
          case BOTH -> {
            checkQueue(command, deadline);
            yield checkEvents(command, deadline);
          }
        };
    return new TextReply(last.text(), sent, last.answeredNanos());
  }

  private void requireComplete(String command, Deadline deadline) throws InstrumentException {
    String question = ScpiHabits.Settling.OPERATION_COMPLETE.key();
    TextReply reply = line.ask(name, question, deadline);
    if (!reply.text().equals("1")) {
      throw line.badReply(
          name, "after " + command + ": " + exchange(question, reply), "1 was expected");
    }
  }

  private TextReply checkQueue(String command, Deadline deadline) throws InstrumentException {
    TextReply reply = line.ask(name, NEXT_ERROR, deadline);
    ScpiError error = error(command, reply);
    if (!error.none()) {
      String more = emptyErrors(deadline);
      throw line.refused(name, command + " -> " + reply.text(), error.words() + more);
    }
    return reply;
  }

  private TextReply checkStatus(String command, Deadline deadline) throws InstrumentException {
    TextReply reply = line.ask(name, ScpiStatus.QUESTION, deadline);
    String exchange = "after " + command + ": " + exchange(ScpiStatus.QUESTION, reply);
    Optional<ScpiStatus> status = ScpiStatus.parse(reply.text());
    if (status.isEmpty()) {
      throw line.badReply(
          name,
          exchange,
          lateNumber(reply)
              + "a status byte of 0 to 255, a semicolon, an error number and a quoted text were"
              + " expected;"
              + OTHERWISE);
    }
    if (!status.get().quiet()) {
      throw unquiet(command, status.get(), exchange, deadline);
    }
    return reply;
  }

  /** Names what the instrument has to say, and leaves its queue and its events empty. */
  private InstrumentException unquiet(
      String command, ScpiStatus status, String exchange, Deadline deadline)
      throws InstrumentException {
    ScpiError error = status.error();
    if (!error.none()) {
      String more = emptyErrors(deadline);
      clearEvents(status, deadline);
      return line.refused(name, exchange, error.words() + more);
    }
    if (status.events()) {
      TextReply events = checkEvents(command, deadline);
      return line.badReply(
          name,
          exchange + "; " + exchange(EVENTS, events),
          "the status byte reports an error event, the event register none;" + OTHERWISE);
    }
    return line.badReply(
        name, exchange, "the status byte reports an error, the error queue none;" + OTHERWISE);
  }

  /** Or the next command would be blamed for what stands in the event register. */
  private void clearEvents(ScpiStatus status, Deadline deadline) {
    if (status.events()) {
      try {
        line.ask(name, EVENTS, deadline);
      } catch (InstrumentException unreadable) {
        // The refusal is what matters; *CLS comes when the line opens again.
        line.close();
      }
    }
  }

  /** Reading the standard event status register clears it (IEEE 488.2 11.5.1). */
  private TextReply checkEvents(String command, Deadline deadline) throws InstrumentException {
    TextReply reply = line.ask(name, EVENTS, deadline);
    Optional<Integer> register = ScpiStatus.register(reply.text());
    if (register.isEmpty()) {
      throw line.badReply(
          name, "after " + command + ": " + exchange(EVENTS, reply), "0 to 255 was expected");
    }
    List<String> errors = new ArrayList<>();
    EVENT_ERRORS.forEach(
        (bit, words) -> {
          if ((register.get() & bit) != 0) {
            errors.add(words);
          }
        });
    if (!errors.isEmpty()) {
      throw line.refused(
          name, command + "; " + exchange(EVENTS, reply), String.join(" and ", errors));
    }
    return reply;
  }

  /** Asks for one number. */
  Answer ask(String question, String unit, Deadline deadline) throws InstrumentException {
    TextReply reply = line.ask(name, question, deadline);
    ScpiNumber.Result result = ScpiNumber.parse(reply.text(), unit);
    if (result instanceof ScpiNumber.Fault fault) {
      String late = ScpiError.parse(reply.text()).isPresent() ? late(NEXT_ERROR) : "";
      throw line.badReply(name, exchange(question, reply), late + fault.why());
    }
    return new Answer(((ScpiNumber.Value) result).value(), reply);
  }

  /** Asks for a boolean: 0 or 1 (SCPI-1999 Volume 1, 7.3). */
  boolean askWhether(String question, Deadline deadline) throws InstrumentException {
    TextReply reply = line.ask(name, question, deadline);
    return switch (reply.text()) {
      case "1", "+1" -> true;
      case "0", "+0" -> false;
      default -> throw line.badReply(name, exchange(question, reply), "0 or 1 was expected");
    };
  }

  Optional<Identity> identify(Deadline deadline) throws InstrumentException {
    TextReply reply = line.ask(name, IDENTITY, deadline);
    Optional<Identity> identity = ScpiIdentity.parse(reply.text());
    if (identity.isEmpty()) {
      throw line.badReply(
          name,
          exchange(IDENTITY, reply),
          "maker, model, serial number and firmware were expected, with commas between");
    }
    return identity;
  }

  static String exchange(String question, TextReply reply) {
    return question + " -> " + reply.text();
  }

  private ScpiError error(String after, TextReply reply) throws InstrumentException {
    Optional<ScpiError> error = ScpiError.parse(reply.text());
    if (error.isEmpty()) {
      throw line.badReply(
          name,
          "after " + after + ": " + exchange(NEXT_ERROR, reply),
          lateNumber(reply) + "an error number and a quoted text were expected");
    }
    return error.get();
  }

  private static String lateNumber(TextReply reply) {
    return ScpiNumber.parse(reply.text(), "A") instanceof ScpiNumber.Value ? late("a number") : "";
  }

  private static String late(String question) {
    return "late reply: it answers an earlier question, for " + question + "; ";
  }

  /** Reads the queue empty, or the next command would be blamed for what is left in it. */
  private String emptyErrors(Deadline deadline) {
    List<String> more = new ArrayList<>();
    try {
      while (more.size() < MOST_ERRORS) {
        ScpiError next = error(NEXT_ERROR, line.ask(name, NEXT_ERROR, deadline));
        if (next.none()) {
          return more.isEmpty() ? "" : "; then " + String.join("; ", more);
        }
        more.add(next.words());
      }
    } catch (InstrumentException unreadable) {
      // The refusal is what matters; the line has closed itself, and *CLS comes when it opens.
      return more.isEmpty() ? "" : "; then " + String.join("; ", more);
    }
    line.close();
    return "; and more than " + MOST_ERRORS + " errors after it";
  }

  /**
   * A number and the reply that held it.
   *
   * @param value in the unit that was asked for
   */
  record Answer(double value, TextReply reply) {}
}
