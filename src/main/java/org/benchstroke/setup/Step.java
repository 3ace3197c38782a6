package org.benchstroke.setup;

import java.util.List;
import java.util.Optional;
import org.benchstroke.io.instrument.LimitSwitch;
import org.benchstroke.procedure.Caution;

/**
 * A step of a set-up, as data. Immutable.
 *
 * @param key which one
 * @param form what kind of work it is
 * @param does what the person does, a sentence each
 * @param cautions what must have been read before; one that starts motion is asked each time
 * @param picture what it looks like
 * @param fields what can be typed
 */
public record Step(
    StepKey key,
    Form form,
    List<String> does,
    List<Caution> cautions,
    Picture picture,
    List<Field> fields) {
  public Step {
    does = List.copyOf(does);
    cautions = List.copyOf(cautions);
    fields = List.copyOf(fields);
  }

  /** What kind of work a step is, and so what is read live at it. */
  public sealed interface Form {}

  /** Something is done or looked at, without anything being read. */
  public record Deed() implements Form {}

  /**
   * The unit is moved by hand.
   *
   * @param targetDegrees where to, °
   */
  public record ByHand(double targetDegrees) implements Form {}

  /**
   * A switch's cam is set.
   *
   * @param which the switch
   * @param ends the end switch that it comes before, if it is an auxiliary one
   */
  public record Cam(LimitSwitch which, Optional<LimitSwitch> ends) implements Form {
    /** Whether it belongs to the open end. */
    public boolean openEnd() {
      return which == LimitSwitch.OPEN || which == LimitSwitch.OPEN_AUXILIARY;
    }
  }

  /** The motor's supply, or the air, comes on. */
  public record Energise() implements Form {}

  /**
   * The unit calibrates itself.
   *
   * @param usualSeconds how long that usually takes, s; 0 if nobody says
   */
  public record Calibrate(double usualSeconds) implements Form {}

  /** What its display says is typed. */
  public record Display() implements Form {}

  /** All is done. */
  public record Ready() implements Form {}

  /** Whether something is read live. */
  public boolean live() {
    return form instanceof ByHand || form instanceof Cam || form instanceof Calibrate;
  }
}
