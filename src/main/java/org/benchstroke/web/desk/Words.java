package org.benchstroke.web.desk;

import java.time.Instant;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import org.benchstroke.archive.ArchivedRun.Heading;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.core.statistics.CheckState;
import org.benchstroke.judge.Word;
import org.benchstroke.papers.ReportPage;

/** How what the archive holds is put to people. Stateless. */
public final class Words {
  private static final int MINUTE = 16;
  private static final int DAY = 10;

  private Words() {}

  private static Optional<Word> word(String text) {
    return Arrays.stream(Word.values()).filter(word -> word.text().equals(text)).findFirst();
  }

  /** Whether a text is a word of a judgement. */
  static boolean isWord(String text) {
    return word(text).isPresent();
  }

  /** The key of the shape of a word; a word that this version does not know is no result. */
  public static String mark(String text) {
    return ReportPage.key(word(text).orElse(Word.NO_RESULT));
  }

  /** A word of a whole unit. */
  public static String ofUnit(String text) {
    return word(text).map(Word::ofUnit).orElse(text);
  }

  /** By UTC, as in the records: "2026-12-01 14:05". */
  public static String minute(Instant at) {
    return at.toString().replace('T', ' ').substring(0, MINUTE);
  }

  /** Likewise: "2026-12-01". */
  public static String day(Instant at) {
    return at.toString().substring(0, DAY);
  }

  /** A text, or a dash where there is none. */
  public static String orDash(String text) {
    return text.isBlank() ? "–" : text;
  }

  /** What must be known beside the word of a run, in a word or two each. */
  public static List<String> marks(Heading run) {
    List<String> marks = new ArrayList<>();
    if (run.facts().simulated()) {
      marks.add("simulated");
    }
    if (run.facts().imported()) {
      marks.add("recorded elsewhere");
    }
    if (!run.result().whole()) {
      marks.add("not whole");
    }
    if (run.file().flaws() > 0) {
      marks.add("RECORD DAMAGED OR CHANGED");
    }
    return marks;
  }

  /** With a capital letter and a full stop. */
  static String sentence(String words) {
    String begun = words.substring(0, 1).toUpperCase(Locale.ROOT) + words.substring(1);
    return begun.endsWith(".") || begun.endsWith("?") ? begun : begun + ".";
  }

  /** Days that are left, in words. */
  static String left(Optional<Long> days) {
    if (days.isEmpty()) {
      return "not known";
    }
    long left = days.get();
    if (left < 0) {
      return "OVERDUE by " + -left + (left == -1 ? " day" : " days");
    }
    return left == 0 ? "today" : left + (left == 1 ? " day" : " days");
  }

  /** The shape of a check's state. */
  static String mark(CheckState state) {
    if (state instanceof CheckState.InControl) {
      return ReportPage.key(Word.PASS);
    }
    if (state instanceof CheckState.Warning) {
      return ReportPage.key(Word.CONDITIONAL_PASS);
    }
    return ReportPage.key(state instanceof CheckState.TooFew ? Word.NO_RESULT : Word.FAIL);
  }

  /** A duration, s, as people say it. */
  static String minutes(double seconds) {
    long whole = Math.round(seconds);
    return whole < 60 ? whole + " s" : whole / 60 + " min " + whole % 60 + " s";
  }

  static Cell figure(OptionalDouble value, int digits) {
    return value.isPresent()
        ? Cell.figure(value.getAsDouble(), Numbers.significant(value.getAsDouble(), digits))
        : Cell.noFigure();
  }
}
