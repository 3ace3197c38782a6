package org.benchstroke.core.model;

/**
 * When the unit takes its signal for lost, and what it does then. Immutable.
 *
 * @param lowMilliamps a signal below counts as lost, mA, 0..25
 * @param highMilliamps a signal above counts as lost, mA, above the low one, at most 40
 * @param returnMilliamps how far inside the signal must come to count again, mA, 0..2
 * @param openMilliamps a signal below counts as an open loop, mA, 0..{@code lowMilliamps}
 * @param delaySeconds how long it must be lost, s, 0..60
 * @param action what the unit does on a bad signal
 * @param openLoopAction what it does on an open loop
 */
public record LossParameters(
    double lowMilliamps,
    double highMilliamps,
    double returnMilliamps,
    double openMilliamps,
    double delaySeconds,
    Action action,
    Action openLoopAction)
    implements ModelParameters.Part {

  /** What a unit does without a signal. */
  public enum Action {
    CLOSE(-1),
    OPEN(1),
    STAY(0);

    private final int direction;

    Action(int direction) {
      this.direction = direction;
    }

    int direction() {
      return direction;
    }
  }

  public LossParameters {
    Require.within("low loss threshold, mA,", lowMilliamps, 0, 25);
    Require.within("high loss threshold, mA,", highMilliamps, 0, 40);
    Require.below("low loss threshold", lowMilliamps, "high loss threshold", highMilliamps);
    Require.within("return of the signal, mA,", returnMilliamps, 0, 2);
    Require.within("open loop threshold, mA,", openMilliamps, 0, lowMilliamps);
    Require.within("loss delay, s,", delaySeconds, 0, 60);
  }

  static LossParameters baseline() {
    return new LossParameters(3.7, 21.0, 0.1, 0.5, 0.5, Action.CLOSE, Action.CLOSE);
  }

  public LossParameters withActions(Action badSignal, Action openLoop) {
    return new LossParameters(
        lowMilliamps,
        highMilliamps,
        returnMilliamps,
        openMilliamps,
        delaySeconds,
        badSignal,
        openLoop);
  }
}
