package org.benchstroke.core.statistics;

/** What the readings of a check standard say of the bench. */
public sealed interface CheckState {
  /**
   * No accepted baseline yet, so nothing is known: no permission to test.
   *
   * @param has readings that there are in the baseline
   * @param needs readings that it takes
   */
  record TooFew(int has, int needs) implements CheckState {}

  /**
   * Within 2σ of the baseline's mean.
   *
   * @param score the distance from it in σ, with its sign
   */
  record InControl(double score) implements CheckState {}

  /**
   * Beyond 2σ, not beyond 3σ: read again, and look.
   *
   * @param score as above
   */
  record Warning(double score) implements CheckState {}

  /**
   * Beyond 3σ: the bench must not judge.
   *
   * @param score as above
   */
  record Stop(double score) implements CheckState {}

  /**
   * The same value to the last digit more often than chance gives, or no scatter in the baseline: a
   * reading that doesn't change is not a good one, the link or the instrument may stand still.
   *
   * @param inARow how many readings were the same
   */
  record Frozen(int inARow) implements CheckState {}

  /** Whether the bench may be trusted by this reading. */
  default boolean good() {
    return this instanceof InControl || this instanceof Warning;
  }
}
