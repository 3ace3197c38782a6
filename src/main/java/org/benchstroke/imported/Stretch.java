package org.benchstroke.imported;

import java.util.List;
import java.util.Map;
import org.benchstroke.procedure.Aim;
import org.benchstroke.record.Leg;

/**
 * The plateaus of a file that show one test.
 *
 * @param from the first plateau, where the unit sets out
 * @param to the one behind the last; equal to from if the file doesn't show the test
 * @param waits what the rest of a plateau is of the test, by its index
 * @param watches what is watched at the end of a plateau, by its index
 * @param losses the plateaus on which the signal is taken for lost, and whether the loop is open
 * @param ramps where the setpoint moves evenly
 * @param note what is missing of it; empty if nothing
 */
public record Stretch(
    int from,
    int to,
    Map<Integer, Stretch.Wait> waits,
    Map<Integer, Stretch.Watch> watches,
    Map<Integer, Boolean> losses,
    List<Stretch.Ramp> ramps,
    String note) {
  /**
   * What comes to rest.
   *
   * @param aim what for
   * @param stair which change of a staircase it is, from 1; 0 for the arrival itself
   * @param direction "up", "down" or "none"
   * @param cycle from 1, or 0
   */
  public record Wait(Aim aim, int stair, String direction, int cycle) {
    /** An arrival. */
    public Wait(Aim aim, String direction, int cycle) {
      this(aim, 0, direction, cycle);
    }

    Leg leg() {
      return stair > 0 ? Leg.STAIR : Leg.ARRIVAL;
    }

    String label() {
      return aim.words() + (stair > 0 ? " #" + stair : "");
    }
  }

  /** What a watch is for, and how long it takes, s. */
  public record Watch(Aim aim, double seconds) {}

  /** What a ramp is for, its first plateau and its last. */
  public record Ramp(Aim aim, int from, int to) {
    boolean holds(int index) {
      return index >= from && index <= to;
    }
  }

  public Stretch {
    waits = Map.copyOf(waits);
    watches = Map.copyOf(watches);
    losses = Map.copyOf(losses);
    ramps = List.copyOf(ramps);
  }

  /** One of rests alone. */
  public Stretch(int from, int to, Map<Integer, Wait> waits, String note) {
    this(from, to, waits, Map.of(), Map.of(), List.of(), note);
  }

  /** None, and why. */
  public static Stretch none(String why) {
    return new Stretch(0, 0, Map.of(), why);
  }

  boolean found() {
    return to > from;
  }

  /** Whether a plateau is one that the test looks at. */
  boolean takes(int index) {
    return waits.containsKey(index)
        || watches.containsKey(index)
        || losses.containsKey(index)
        || ramped(index);
  }

  /** The ramp that a plateau is a step of, if any. */
  boolean ramped(int index) {
    return ramps.stream().anyMatch(r -> r.holds(index));
  }
}
