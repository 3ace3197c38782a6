package org.benchstroke.web;

import java.util.Locale;
import java.util.Optional;
import org.benchstroke.judge.Word;

/**
 * The shapes by which things are told apart before any colour. Those of verdicts are the papers';
 * stations and tests have others. Stateless.
 */
public final class Shapes {
  private static final String OF_STATIONS = "▲★✚♠▼☆♣⬢△✱♥⬡▽✦♦⬟";

  private Shapes() {}

  /** Of a station, by its letter. */
  public static String ofStation(String letter) {
    int index = letter.isEmpty() ? 0 : Math.floorMod(letter.charAt(0) - 'A', OF_STATIONS.length());
    return OF_STATIONS.substring(index, index + 1);
  }

  /** Of a verdict: the name of its drawing and of its style. */
  public static String ofVerdict(Word word) {
    return word.name().toLowerCase(Locale.ROOT).replace('_', '-');
  }

  /** What stands beside a measure in a table: as on the papers, round passes and square fails. */
  public static String ofWord(Optional<Word> word) {
    if (word.isEmpty()) {
      return "·";
    }
    return switch (word.get()) {
      case PASS -> "●";
      case CONDITIONAL_PASS -> "○";
      case CONDITIONAL_FAIL -> "□";
      case FAIL -> "■";
      case NO_RESULT -> "◇";
    };
  }
}
