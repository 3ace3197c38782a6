package org.benchstroke.simulator;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.regex.Pattern;

/** Understands program messages by the commands that an instrument has. One thread. */
final class ScpiMessages {
  private static final int LONGEST_MNEMONIC = 12;
  private static final int MOST_KNOWN = 100;
  private static final Pattern UNPRINTABLE = Pattern.compile("[^ -~\\t\\r]");
  private static final Pattern HEADER = Pattern.compile("(\\*|:)?[A-Za-z0-9_:]+\\??");
  private static final Pattern SPACE = Pattern.compile("[ \\t]+");

  private final List<ScpiCommand> commands;

  /** A client asks the same again and again: messages that end with a query, as understood. */
  private final Map<String, List<Unit>> known = new HashMap<>();

  ScpiMessages(List<ScpiCommand> commands) {
    this.commands = List.copyOf(commands);
  }

  /** A unit of a message: what it asks for, with what. */
  record Unit(boolean query, ScpiCommand.Handler handler, List<String> parameters) {
    static Unit of(ScpiCommand command, List<String> parameters) {
      return new Unit(command.query(), command.handler(), parameters);
    }

    /** One that can't be understood. */
    static Unit wrong(ScpiError.Code code) {
      return new Unit(
          false,
          parameters -> {
            throw new ScpiError(code);
          },
          List.of());
    }

    String carryOut() throws ScpiError {
      return handler.handle(parameters);
    }
  }

  /** The units of a message up to the first one that can't be understood. */
  List<Unit> units(String message) {
    List<Unit> units = known.get(message);
    if (units == null) {
      units = understood(message);
      if (message.endsWith("?") && known.size() < MOST_KNOWN) {
        known.put(message, units);
      }
    }
    return units;
  }

  private List<Unit> understood(String message) {
    if (UNPRINTABLE.matcher(message).find()) {
      return List.of(Unit.wrong(ScpiError.Code.INVALID_CHARACTER));
    }
    List<Unit> units = new ArrayList<>();
    String path = "";
    try {
      for (String each : message.split(";", -1)) {
        if (!each.isBlank()) {
          String[] parts = SPACE.split(each.strip(), 2);
          String header = parts[0];
          units.add(Unit.of(find(header, path), parameters(parts.length > 1 ? parts[1] : "")));
          path = after(header, path);
        }
      }
    } catch (ScpiError error) {
      units.add(Unit.wrong(error.code()));
    }
    return List.copyOf(units);
  }

  private ScpiCommand find(String header, String path) throws ScpiError {
    if (!HEADER.matcher(header).matches()) {
      throw new ScpiError(ScpiError.Code.INVALID_CHARACTER);
    }
    String full = full(header, path);
    for (String mnemonic : full.split(":", -1)) {
      if (mnemonic.length() > LONGEST_MNEMONIC) {
        throw new ScpiError(ScpiError.Code.MNEMONIC_TOO_LONG);
      }
    }
    for (ScpiCommand command : commands) {
      if (command.query() == header.endsWith("?") && command.header().matches(full)) {
        return command;
      }
    }
    throw new ScpiError(ScpiError.Code.UNDEFINED_HEADER);
  }

  /** A header from the root, without its question mark. */
  private static String full(String header, String path) {
    String bare = header.endsWith("?") ? header.substring(0, header.length() - 1) : header;
    if (bare.startsWith(":")) {
      return bare.substring(1);
    }
    return common(header) ? bare : path + bare;
  }

  /** Where the next header begins: at the level of this one (SCPI-1999 volume 1, 6.2.4). */
  private static String after(String header, String path) {
    String full = full(header, path);
    return common(header) ? path : full.substring(0, full.lastIndexOf(':') + 1);
  }

  private static boolean common(String header) {
    return header.startsWith("*");
  }

  private static List<String> parameters(String text) {
    return text.isBlank()
        ? List.of()
        : Arrays.stream(text.split(",", -1)).map(String::strip).toList();
  }
}
