package org.benchstroke.core.statistics;

/**
 * Why there are no figures. Immutable.
 *
 * @param lack what is wrong with the data
 * @param has how many there are of what is counted: points, subgroups, units tested
 * @param needs how many there must be at least
 */
public record NoAnswer(Lack lack, int has, int needs)
    implements ChartAnswer, StudyAnswer, LinearityAnswer, CapabilityAnswer, YieldAnswer {

  /** What is wrong. */
  public enum Lack {
    /** Fewer than are needed. */
    TOO_FEW,
    /**
     * No scatter at all: the readings are too coarse for the question, or no readings. Limits from
     * a deviation of 0 would call everything else a signal.
     */
    ALL_IDENTICAL
  }

  static NoAnswer tooFew(int has, int needs) {
    return new NoAnswer(Lack.TOO_FEW, has, needs);
  }

  static NoAnswer allIdentical(int has) {
    return new NoAnswer(Lack.ALL_IDENTICAL, has, has);
  }
}
