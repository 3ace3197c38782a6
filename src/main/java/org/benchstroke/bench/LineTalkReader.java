package org.benchstroke.bench;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.regex.Pattern;
import org.benchstroke.core.toml.TomlSection;
import org.benchstroke.core.toml.Words;
import org.benchstroke.io.instrument.TextManner;
import org.benchstroke.io.line.Checksum;
import org.benchstroke.io.line.LineTalk;
import org.benchstroke.io.line.Seal;
import org.benchstroke.io.scpi.ScpiHabits;

/** Reads how messages to an instrument look. Stateless. */
final class LineTalkReader {
  private static final int LONGEST_END = 4;

  private LineTalkReader() {}

  static LineTalk read(TomlSection table) {
    TextManner manner = manner(table);
    Seal seal = seal(table);
    List<Pattern> errors = new ArrayList<>();
    for (String text : table.optionalTexts("errors")) {
      errors.add(Patterns.compiled(table, "errors", text));
    }
    List<String> opening = table.optionalTexts("at_opening");
    opening.forEach(command -> Patterns.requireCommand(table, "at_opening", command));
    Optional<Pattern> openingReply = Patterns.optional(table, "at_opening_reply");
    if (openingReply.isPresent() && opening.isEmpty()) {
      table.mistake("at_opening_reply", "there is no command at_opening that it could answer");
    }
    table.noOtherKeys();
    return new LineTalk(manner, seal, errors, opening, openingReply);
  }

  /** The habits of an instrument that speaks SCPI; what is left out is as usual. */
  static ScpiHabits scpi(TomlSection table) {
    ScpiHabits usual = ScpiHabits.USUAL;
    TextManner manner = manner(table);
    ScpiHabits habits =
        new ScpiHabits(
            manner,
            table
                .optionalChoice(
                    "settle", Words.of(ScpiHabits.Settling.values(), ScpiHabits.Settling::key))
                .orElse(usual.settling()),
            table
                .optionalChoice(
                    "check", Words.of(ScpiHabits.Checking.values(), ScpiHabits.Checking::key))
                .orElse(usual.checking()));
    table.noOtherKeys();
    return habits;
  }

  private static TextManner manner(TomlSection table) {
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

  private static Seal seal(TomlSection table) {
    Checksum checksum =
        table
            .optionalChoice("checksum", Words.of(Checksum.values(), Checksum::key))
            .orElse(Checksum.NONE);
    String mark = table.optionalRaw("checksum_mark").orElse("");
    int skip = table.integer("checksum_skip", 0, 100, 0);
    Patterns.requirePrintable(table, "checksum_mark", mark);
    boolean none = table.optionalRaw("checksum").map(Checksum.NONE.key()::equals).orElse(true);
    if (none) {
      for (String key : List.of("checksum_mark", "checksum_skip")) {
        if (table.has(key)) {
          table.mistake(key, "there is no checksum that it could belong to; name one or leave it");
        }
      }
    }
    return none ? Seal.NONE : new Seal(checksum, mark, skip);
  }
}
