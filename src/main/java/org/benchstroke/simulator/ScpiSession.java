package org.benchstroke.simulator;

import java.io.ByteArrayOutputStream;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.regex.Pattern;

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
  private static final int LONGEST_MNEMONIC = 12;
  private static final int MOST_KNOWN = 100;
  private static final Pattern HEADER = Pattern.compile("(\\*|:)?[A-Za-z0-9_:]+\\??");
  private static final Pattern SPACE = Pattern.compile("[ \\t]+");

  private final ScpiInstrument instrument;
  private final ScpiStatus status = new ScpiStatus();
  private final List<ScpiCommand> commands = new ArrayList<>();
  private final ByteArrayOutputStream message = new ByteArrayOutputStream();

  /** A client asks the same again and again: what was asked, after which path. */
  private final Map<String, Found> known = new HashMap<>();

  private boolean overrun;

  /** What is known while one message is carried out. */
  private static final class Progress {
    final List<String> answers = new ArrayList<>();
    String path = "";
    boolean identified;
    boolean aborted;
  }

  private Progress progress = new Progress();

  ScpiSession(ScpiInstrument instrument) {
    this.instrument = instrument;
    commands.addAll(instrument.commands());
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
  }

  @Override
  public byte[] feed(byte[] chunk) {
    StringBuilder answer = new StringBuilder();
    for (byte each : chunk) {
      if (each == '\n') {
        answer.append(end());
      } else if (message.size() < LONGEST_MESSAGE) {
        message.write(each);
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
    String text = message.toString(StandardCharsets.ISO_8859_1);
    message.reset();
    progress = new Progress();
    if (overrun) {
      overrun = false;
      status.add(ScpiError.Code.INPUT_OVERRUN);
    } else if (text.chars().anyMatch(c -> c > '~' || (c < ' ' && c != '\t' && c != '\r'))) {
      status.add(ScpiError.Code.INVALID_CHARACTER);
    } else {
      for (String unit : text.split(";", -1)) {
        carryOut(unit.strip());
      }
    }
    return progress.answers.isEmpty() ? "" : String.join(";", progress.answers) + "\n";
  }

  private void carryOut(String unit) {
    if (unit.isEmpty() || progress.aborted) {
      return;
    }
    try {
      String[] parts = SPACE.split(unit, 2);
      ScpiCommand command = find(parts[0]);
      if (command.query() && progress.identified) {
        throw new ScpiError(ScpiError.Code.UNTERMINATED_AFTER_IDN);
      }
      String answer = command.handler().handle(parameters(parts.length > 1 ? parts[1] : ""));
      if (command.query()) {
        progress.answers.add(answer);
      }
    } catch (ScpiError error) {
      status.add(error.code());
      boolean commandError = error.code().eventBit() == ScpiError.Code.UNDEFINED_HEADER.eventBit();
      progress.aborted = commandError;
    }
  }

  /**
   * A command that was found.
   *
   * @param path where the next header of the message then begins
   */
  private record Found(ScpiCommand command, String path) {}

  /** Finds the command and moves the path to its level (SCPI-1999 volume 1, 6.2.4). */
  private ScpiCommand find(String header) throws ScpiError {
    String asked = progress.path + ' ' + header;
    Found found = known.get(asked);
    if (found == null) {
      found = lookUp(header);
      if (known.size() < MOST_KNOWN) {
        known.put(asked, found);
      }
    }
    progress.path = found.path();
    return found.command();
  }

  private Found lookUp(String header) throws ScpiError {
    if (!HEADER.matcher(header).matches()) {
      throw new ScpiError(ScpiError.Code.INVALID_CHARACTER);
    }
    boolean query = header.endsWith("?");
    String bare = query ? header.substring(0, header.length() - 1) : header;
    boolean common = bare.startsWith("*");
    String full = bare;
    if (bare.startsWith(":")) {
      full = bare.substring(1);
    } else if (!common) {
      full = progress.path + bare;
    }
    for (String mnemonic : full.split(":", -1)) {
      if (mnemonic.length() > LONGEST_MNEMONIC) {
        throw new ScpiError(ScpiError.Code.MNEMONIC_TOO_LONG);
      }
    }
    for (ScpiCommand command : commands) {
      if (command.query() == query && command.header().matches(full)) {
        String path = common ? progress.path : full.substring(0, full.lastIndexOf(':') + 1);
        return new Found(command, path);
      }
    }
    throw new ScpiError(ScpiError.Code.UNDEFINED_HEADER);
  }

  private static List<String> parameters(String text) {
    return text.isBlank()
        ? List.of()
        : Arrays.stream(text.split(",", -1)).map(String::strip).toList();
  }

  private String identify() {
    progress.identified = true;
    return instrument.identity();
  }

  private int statusByte() {
    return status.statusByte(!progress.answers.isEmpty());
  }
}
