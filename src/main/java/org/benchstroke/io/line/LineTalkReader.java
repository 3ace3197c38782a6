package org.benchstroke.io.line;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.regex.Pattern;
import org.benchstroke.core.toml.TomlSection;
import org.benchstroke.core.toml.Words;
import org.benchstroke.io.instrument.TextManner;
import org.benchstroke.io.instrument.TextMannerReader;

/** Reads how messages to an instrument look. Stateless. */
final class LineTalkReader {
  private LineTalkReader() {}

  static LineTalk read(TomlSection table) {
    TextManner manner = TextMannerReader.read(table);
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
          table.mistake(
              key, "there is no checksum that it could belong to; name one or leave this out");
        }
      }
    }
    return none ? Seal.NONE : new Seal(checksum, mark, skip);
  }
}
