package org.benchstroke.procedure;

import java.util.List;
import org.benchstroke.quantity.Position;

/** A test of a procedure as data; {@link Expansion} turns it into actions. Immutable. */
public sealed interface TestSpec {
  /** The test's name in files, records and reports. */
  String name();

  /**
   * Full strokes before anything is measured.
   *
   * @param strokes how many, there and back
   */
  record Exercise(int strokes) implements TestSpec {
    @Override
    public String name() {
      return "exercise";
    }
  }

  /**
   * Time for full travel each way.
   *
   * @param repeats how many times each way
   */
  record StrokeTime(int repeats) implements TestSpec {
    @Override
    public String name() {
      return "stroke time";
    }
  }

  /**
   * Error at setpoints, approached from below and from above.
   *
   * @param points rising, at least two
   * @param cycles how many times up and down
   */
  record TravelError(List<Position> points, int cycles) implements TestSpec {
    public TravelError {
      points = List.copyOf(points);
    }

    @Override
    public String name() {
      return "travel error";
    }
  }

  /**
   * What the unit does when the signal gets lost; once for each way of losing it.
   *
   * @param at where it stands before
   * @param ways the ways, in order
   */
  record SignalLoss(Position at, List<Way> ways) implements TestSpec {
    public SignalLoss {
      ways = List.copyOf(ways);
    }

    /** A way of losing the signal. */
    public enum Way {
      /** A low signal that is still a signal: the unit must hold or follow it, not fail. */
      LOW("low"),
      /** A signal so low that it counts as lost. */
      LOST("lost"),
      /** The loop open. */
      OPEN_LOOP("open loop");

      private final String key;

      Way(String key) {
        this.key = key;
      }

      public String key() {
        return key;
      }
    }

    @Override
    public String name() {
      return "signal loss";
    }
  }
}
