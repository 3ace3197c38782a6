package org.benchstroke.io.instrument;

import java.util.Optional;
import org.benchstroke.core.toml.TomlSection;

/** Reads what ends messages in lines of text, and the pause between them. Stateless. */
public final class TextMannerReader {
  private static final int LONGEST_END = 4;

  private TextMannerReader() {}

  /** Reads {@code send_end}, {@code reply_end} and {@code pause_ms}. */
  public static TextManner read(TomlSection table) {
    String send = end(table, "send_end");
    String reply = end(table, "reply_end");
    double pause = table.optionalNumber("pause_ms", 0, 60_000, "ms").orElse(0.0);
    return new TextManner(send, reply, (long) (pause * 1e6));
  }

  private static String end(TomlSection table, String key) {
    String allowed = "1 to 4 characters such as \"\\r\\n\", \"\\n\" or \"\\r\"";
    Optional<String> found = table.optionalRaw(key);
    if (found.isEmpty() && !table.has(key)) {
      table.mistake("", key + " is missing; write " + allowed);
    }
    boolean fits =
        found.isPresent()
            && !found.get().isEmpty()
            && found.get().length() <= LONGEST_END
            && found.get().chars().allMatch(c -> c < 0x80);
    if (found.isPresent() && !fits) {
      table.mistake(key, "allowed is " + allowed);
    }
    return fits ? found.get() : "\n";
  }
}
