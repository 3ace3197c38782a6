package org.benchstroke.judge;

import java.util.Locale;
import java.util.OptionalDouble;
import org.benchstroke.core.analysis.Direction;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.io.instrument.LimitSwitch;

/** Where a measure was taken. Two of one place are equal; the words are for people. Immutable. */
public sealed interface Location {
  /** Of the whole unit, at no place of its own. */
  static Location whole() {
    return new Whole();
  }

  /** For people: "50 % up"; empty for the whole unit. */
  String words();

  /** Its words behind the name of a measure: " at 50 % up"; empty for the whole unit. */
  default String behind() {
    return " at " + words();
  }

  /**
   * For files and databases: "side 50 up"; empty for the whole unit. Other places have other ids.
   */
  String id();

  /** The setpoint that it is at, % of travel; empty where it is at none. */
  default OptionalDouble setpointPercent() {
    return OptionalDouble.empty();
  }

  /** A number in a key. */
  private static String exact(double percent) {
    return Numbers.exact(percent);
  }

  /** A place that nobody asked for may lie anywhere. */
  private static String upTo(double percent) {
    return Numbers.upTo(percent, 3);
  }

  /** Of the whole unit. */
  record Whole() implements Location {
    @Override
    public String words() {
      return "";
    }

    @Override
    public String behind() {
      return "";
    }

    @Override
    public String id() {
      return "";
    }
  }

  /**
   * At a setpoint.
   *
   * @param percent % of travel
   */
  record Point(double percent) implements Location {
    @Override
    public String words() {
      return upTo(percent) + " %";
    }

    @Override
    public String id() {
      return "point " + exact(percent);
    }

    @Override
    public OptionalDouble setpointPercent() {
      return OptionalDouble.of(percent);
    }
  }

  /**
   * At a setpoint that was approached from one side.
   *
   * @param percent % of travel
   * @param direction which way it was approached
   */
  record Side(double percent, Direction direction) implements Location {
    @Override
    public String words() {
      return upTo(percent) + " % " + direction.text();
    }

    @Override
    public String id() {
      return "side " + exact(percent) + " " + direction.text();
    }

    @Override
    public OptionalDouble setpointPercent() {
      return OptionalDouble.of(percent);
    }
  }

  /**
   * One reading at a setpoint, the highest or the lowest of all.
   *
   * @param percent % of travel
   * @param direction which way it was approached
   * @param cycle from 1; 0 for a rest that no cycle asked for
   * @param highest whether it is the highest
   */
  record Reading(double percent, Direction direction, int cycle, boolean highest)
      implements Location {
    @Override
    public String words() {
      return new Side(percent, direction).words()
          + (cycle == 0 ? ", another rest, " : ", cycle " + cycle + ", ")
          + (highest ? "highest" : "lowest")
          + " reading";
    }

    @Override
    public String id() {
      return "reading "
          + exact(percent)
          + " "
          + direction.text()
          + " "
          + cycle
          + (highest ? " highest" : " lowest");
    }

    @Override
    public OptionalDouble setpointPercent() {
      return OptionalDouble.of(percent);
    }
  }

  /**
   * A step of the setpoint.
   *
   * @param sizePercent its size, % of travel
   * @param direction which way
   */
  record StepOf(double sizePercent, Direction direction) implements Location {
    @Override
    public String words() {
      return upTo(sizePercent) + " % " + direction.text();
    }

    @Override
    public String id() {
      return "step " + exact(sizePercent) + " " + direction.text();
    }
  }

  /**
   * All the way in one direction.
   *
   * @param direction which
   */
  record Way(Direction direction) implements Location {
    @Override
    public String words() {
      return direction.text();
    }

    @Override
    public String id() {
      return "way " + direction.text();
    }
  }

  /**
   * A full stroke.
   *
   * @param opening or closing
   */
  record FullStroke(boolean opening) implements Location {
    @Override
    public String words() {
      return opening ? "opening" : "closing";
    }

    @Override
    public String id() {
      return "stroke " + words();
    }
  }

  /**
   * An end of travel.
   *
   * @param open or closed
   */
  record TravelEnd(boolean open) implements Location {
    @Override
    public String words() {
      return open ? "open" : "closed";
    }

    @Override
    public String id() {
      return "end " + words();
    }
  }

  /**
   * From one setpoint to another.
   *
   * @param from % of travel
   * @param to % of travel
   * @param cycle from 1; 0 for all cycles
   */
  record Between(double from, double to, int cycle) implements Location {
    @Override
    public String words() {
      String way = upTo(from) + " to " + upTo(to) + " %";
      return way + (cycle > 0 ? ", cycle " + cycle : "");
    }

    @Override
    public String id() {
      return "between " + exact(from) + " " + exact(to) + " " + cycle;
    }
  }

  /**
   * The switches of an end of travel.
   *
   * @param open or closed
   */
  record EndSwitches(boolean open) implements Location {
    @Override
    public String words() {
      return open ? "open end" : "closed end";
    }

    @Override
    public String id() {
      return "switches " + (open ? "open" : "closed");
    }
  }

  /**
   * A hold.
   *
   * @param percent where, % of travel
   * @param time the first, second … hold there, from 1
   */
  record Held(double percent, int time) implements Location {
    @Override
    public String words() {
      return upTo(percent) + " %" + (time > 1 ? ", time " + time : "");
    }

    @Override
    public String id() {
      return "held " + exact(percent) + " " + time;
    }

    @Override
    public OptionalDouble setpointPercent() {
      return OptionalDouble.of(percent);
    }
  }

  /**
   * A switch of the unit.
   *
   * @param which which
   */
  record OfSwitch(LimitSwitch which) implements Location {
    @Override
    public String words() {
      return which.key();
    }

    @Override
    public String id() {
      return "switch " + which.name().toLowerCase(Locale.ROOT);
    }
  }

  /**
   * One of the cases that a procedure names.
   *
   * @param key its key in the procedure file: "at rest"
   */
  record Case(String key) implements Location {
    @Override
    public String words() {
      return key;
    }

    @Override
    public String behind() {
      return ", " + key;
    }

    @Override
    public String id() {
      return "case " + key;
    }
  }
}
