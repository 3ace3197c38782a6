package org.benchstroke.procedure;

import java.util.Locale;

/**
 * What an action of a test is for. Each test has aims of its own, by which what its actions showed
 * is found again in a record; never by words, which are for people and may change.
 */
public interface Aim {
  /** What a person reads where no port does. */
  enum ByEye {
    /** Nothing. */
    NOTHING,
    /** The position alone. */
    POSITION,
    /** The position, the stem's angle and the switches. */
    ALL
  }

  /** For people: "travel 50 up". */
  String words();

  /** What a person reads there. */
  default ByEye byEye() {
    return ByEye.NOTHING;
  }

  /**
   * What only leads to where something else begins: no figure is taken.
   *
   * @param words for people
   */
  record LeadIn(String words) implements Aim {}

  /**
   * A full stroke, or the way to where the first begins.
   *
   * @param name whose strokes, for people
   * @param way which one
   * @param cycle from 1; 0 for the way to the start
   * @param tellsAction whether it is to tell which way the unit goes
   */
  record Stroke(String name, Way way, int cycle, boolean tellsAction) implements Aim {
    /** Which way it goes. */
    public enum Way {
      START,
      OPENING,
      CLOSING;

      @Override
      public String toString() {
        return name().toLowerCase(Locale.ROOT);
      }
    }

    @Override
    public String words() {
      return name + " " + way;
    }

    /** The first stroke is enough to tell the action. */
    @Override
    public ByEye byEye() {
      boolean first = way == Way.START || (way == Way.OPENING && cycle == 1);
      return tellsAction && first ? ByEye.POSITION : ByEye.NOTHING;
    }
  }
}
