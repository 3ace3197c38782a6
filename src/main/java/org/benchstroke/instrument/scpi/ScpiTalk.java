package org.benchstroke.instrument.scpi;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.benchstroke.clock.Deadline;
import org.benchstroke.instrument.Identity;
import org.benchstroke.instrument.InstrumentException;

/** What SCPI instruments have in common, said on behalf of one of them. The runner's thread. */
final class ScpiTalk {
  private static final String NEXT_ERROR = "SYSTem:ERRor?";
  private static final String IDENTITY = "*IDN?";
  private static final int MOST_ERRORS = 20;

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
   * Sends a command and asks whether it went wrong.
   *
   * @return the question's reply with the command's stamp: the command took effect in between
   */
  ScpiReply tell(String command, Deadline deadline) throws InstrumentException {
    long sent = line.tell(name, command, deadline);
    ScpiReply reply = line.ask(name, NEXT_ERROR, deadline);
    ScpiError error = error(command, reply);
    if (!error.none()) {
      String more = emptyErrors(deadline);
      throw line.refused(name, command + " -> " + reply.text(), error.words() + more);
    }
    return new ScpiReply(reply.text(), sent, reply.answeredNanos());
  }

  /** Asks for one number. */
  Answered ask(String question, String unit, Deadline deadline) throws InstrumentException {
    ScpiReply reply = line.ask(name, question, deadline);
    ScpiNumber.Result result = ScpiNumber.parse(reply.text(), unit);
    if (result instanceof ScpiNumber.Fault fault) {
      throw line.badReply(name, exchange(question, reply), fault.why());
    }
    return new Answered(((ScpiNumber.Value) result).value(), reply);
  }

  /** Asks for a boolean: 0 or 1 (SCPI-1999 Volume 1, 7.3). */
  boolean askWhether(String question, Deadline deadline) throws InstrumentException {
    ScpiReply reply = line.ask(name, question, deadline);
    return switch (reply.text()) {
      case "1", "+1" -> true;
      case "0", "+0" -> false;
      default -> throw line.badReply(name, exchange(question, reply), "0 or 1 was expected");
    };
  }

  Optional<Identity> identify(Deadline deadline) throws InstrumentException {
    ScpiReply reply = line.ask(name, IDENTITY, deadline);
    Optional<Identity> identity = ScpiIdentity.parse(reply.text());
    if (identity.isEmpty()) {
      throw line.badReply(
          name,
          exchange(IDENTITY, reply),
          "maker, model, serial number and firmware were expected, with commas between");
    }
    return identity;
  }

  static String exchange(String question, ScpiReply reply) {
    return question + " -> " + reply.text();
  }

  private ScpiError error(String after, ScpiReply reply) throws InstrumentException {
    Optional<ScpiError> error = ScpiError.parse(reply.text());
    if (error.isEmpty()) {
      throw line.badReply(
          name,
          "after " + after + ": " + exchange(NEXT_ERROR, reply),
          "an error number and a quoted text were expected");
    }
    return error.get();
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
  record Answered(double value, ScpiReply reply) {}
}
