package org.benchstroke.web.desk;

import org.benchstroke.core.quantity.Numbers;

/**
 * A cell of a table. Immutable.
 *
 * @param text what is shown
 * @param raw what a program gets of it
 * @param href where it leads; empty for nowhere
 * @param mark the shape before it, by the key of a word; empty for none
 * @param figure whether it is set as a number
 */
public record Cell(String text, Object raw, String href, String mark, boolean figure) {
  private static final int SHORT = 16;
  private static final int LONG = 28;

  /** How it is set: what is short stays on its line, what is long gets one of its own on a card. */
  public String style() {
    String size = text.length() <= SHORT ? "short" : text.length() > LONG ? "long" : "";
    return figure ? "number" : size;
  }

  static Cell text(String text) {
    return new Cell(Numbers.minusSigns(text), text, "", "", false);
  }

  static Cell link(String text, String href) {
    return new Cell(text, text, href, "", false);
  }

  static Cell figure(double raw, String shown) {
    return new Cell(Numbers.minusSigns(shown), raw, "", "", true);
  }

  static Cell count(long raw) {
    return new Cell(String.valueOf(raw), raw, "", "", true);
  }

  /** A figure that there is none of. */
  static Cell noFigure() {
    return new Cell("–", "", "", "", true);
  }

  static Cell marked(String mark, String text, Object raw) {
    return new Cell(Numbers.minusSigns(text), raw, "", mark, false);
  }

  /** A word of a judgement, of a unit. */
  static Cell verdict(String word) {
    return marked(Words.mark(word), Words.ofUnit(word), word);
  }

  Cell to(String where) {
    return new Cell(text, raw, where, mark, figure);
  }
}
