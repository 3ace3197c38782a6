package org.benchstroke.io.scpi;

import java.nio.charset.StandardCharsets;
import java.util.Locale;
import java.util.OptionalDouble;

/** A source and a meter in one invented box; understands what the standard says and no more. */
final class FakeScpiBox {
  private double setAmps;
  private boolean on;
  private boolean jammed;
  private double measuredMilliamps;
  private String error = "0,\"No error\"";

  void measures(double milliamps) {
    measuredMilliamps = milliamps;
  }

  void jam() {
    jammed = true;
  }

  /** The next command puts this into the error queue. */
  void fails(String entry) {
    error = entry;
  }

  OptionalDouble truth() {
    return on ? OptionalDouble.of(setAmps * 1000.0) : OptionalDouble.empty();
  }

  byte[] answer(byte[] message) {
    String text = new String(message, StandardCharsets.US_ASCII);
    if (!text.endsWith("\n")) {
      throw new AssertionError("no line feed: " + text);
    }
    String[] words = text.strip().split(" ", 2);
    String reply =
        switch (words[0]) {
          case "*CLS" -> cleared();
          case "*ESE" -> "";
          case "*IDN?" -> "Example Instruments,LS24,1001,1.0";
          case "SYSTem:ERRor?" -> nextError();
          case "*STB?;:SYSTem:ERRor?" -> (error.startsWith("0,") ? "0;" : "4;") + nextError();
          case "OUTPut?" -> on ? "1" : "0";
          case "SOURce:CURRent?" -> String.format(Locale.ROOT, "%.6E", setAmps);
          case "MEASure:CURRent?" -> String.format(Locale.ROOT, "%.7E", measuredMilliamps / 1e3);
          case "OUTPut" -> switched(words[1].equals("ON"));
          case "SOURce:CURRent" -> set(Double.parseDouble(words[1]));
          default -> throw new AssertionError("no message of the standard: " + text);
        };
    return reply.isEmpty() ? new byte[0] : (reply + "\n").getBytes(StandardCharsets.US_ASCII);
  }

  private String cleared() {
    error = "0,\"No error\"";
    return "";
  }

  private String nextError() {
    String entry = error;
    cleared();
    return entry;
  }

  private String switched(boolean wanted) {
    on = jammed ? on : wanted;
    return "";
  }

  private String set(double amps) {
    setAmps = jammed ? setAmps : amps;
    return "";
  }
}
