package org.benchstroke.io.line;

import java.nio.charset.StandardCharsets;
import java.util.Locale;
import java.util.OptionalDouble;
import java.util.Set;
import org.benchstroke.io.instrument.LimitSwitch;

/**
 * The two invented instruments of demo-data/benches/line-bench.toml, by their manuals: written by
 * hand, so that nothing of the driver's own templates is in it.
 */
final class FakeLineBox {
  private boolean remote;
  private double setMilliamps;
  private boolean on;
  private boolean relay;
  private boolean jammed;
  private double loopMilliamps;
  private double positionMilliamps = 12.0;
  private double degrees = 45.0;
  private Set<LimitSwitch> made = Set.of();

  void jam() {
    jammed = true;
  }

  void measures(double milliamps) {
    loopMilliamps = milliamps;
  }

  void position(double milliamps) {
    positionMilliamps = milliamps;
  }

  void angle(double now) {
    degrees = now;
  }

  void made(Set<LimitSwitch> now) {
    made = now;
  }

  boolean relay() {
    return relay;
  }

  OptionalDouble truth() {
    return on ? OptionalDouble.of(setMilliamps) : OptionalDouble.empty();
  }

  byte[] answer(byte[] message) {
    String text = new String(message, StandardCharsets.US_ASCII);
    String reply = text.startsWith("#") ? sealed(input(opened(text))) : source(text);
    return (reply + "\r\n").getBytes(StandardCharsets.US_ASCII);
  }

  private String source(String text) {
    if (!text.endsWith("\r")) {
      throw new AssertionError("not ended by CR: " + text);
    }
    String command = text.substring(0, text.length() - 1);
    if (!command.equals("REMOTE") && !remote) {
      return "ERR 9";
    }
    return switch (command) {
      case "REMOTE" -> {
        remote = true;
        yield "OK";
      }
      case "ID?" -> "Example Instruments,PC7,7001,1.2";
      case "OUT?" -> on ? String.format(Locale.ROOT, "%.3f mA", setMilliamps) : "OFF";
      case "MEAS?" -> String.format(Locale.ROOT, "%+.4f mA", loopMilliamps);
      case "OUT ON" -> switched(true);
      case "OUT OFF" -> switched(false);
      default -> command.matches("OUT \\d+\\.\\d{3}") ? set(command) : "?";
    };
  }

  private String switched(boolean now) {
    on = jammed ? on : now;
    return "OK";
  }

  private String set(String command) {
    double wanted = Double.parseDouble(command.substring(4));
    if (wanted > 24.0) {
      return "ERR 5";
    }
    setMilliamps = jammed ? setMilliamps : wanted;
    return "OK";
  }

  private String input(String command) {
    return switch (command) {
      case "#ID" -> "#ID 8002";
      case "#A1" -> "#A1 " + Math.round(positionMilliamps * 1000.0);
      case "#A2" -> String.format(Locale.ROOT, "#A2 %+08.3f", degrees);
      case "#D" ->
          "#D "
              + bit(LimitSwitch.CLOSED)
              + bit(LimitSwitch.CLOSED_AUXILIARY)
              + bit(LimitSwitch.OPEN_AUXILIARY)
              + bit(LimitSwitch.OPEN);
      case "#R" -> "#R " + (relay ? 1 : 0);
      case "#R 1", "#R 0" -> {
        boolean wanted = command.endsWith("1");
        relay = jammed ? relay : wanted;
        yield "#R " + (wanted ? 1 : 0);
      }
      default -> "#E1";
    };
  }

  private String bit(LimitSwitch which) {
    return made.contains(which) ? "1" : "0";
  }

  private static String opened(String text) {
    int star = text.indexOf('*');
    String body = text.substring(0, star);
    if (!text.equals(sealed(body) + "\r\n")) {
      throw new AssertionError("wrong check digits or end: " + text);
    }
    return body;
  }

  /** Exclusive-or of what stands between # and *. */
  private static String sealed(String body) {
    int xor = body.substring(1).chars().reduce(0, (a, b) -> a ^ b);
    return body + "*" + String.format(Locale.ROOT, "%02X", xor);
  }
}
