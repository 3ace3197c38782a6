package org.benchstroke.core.uncertainty;

/**
 * One line of an uncertainty budget (JCGM 100:2008 clause 4 and table H.1). Immutable.
 *
 * @param source where it comes from, in plain words
 * @param evaluation how it was evaluated
 * @param standard the standard uncertainty in the unit of the input, ≥ 0
 * @param sensitivity the measure's change per unit of the input
 * @param degreesOfFreedom ν; infinity where the uncertainty itself is taken as known
 * @param unit the unit of the input; empty where it is that of the measure
 * @param tie what it has in common with other inputs of a budget
 */
public record Component(
    String source,
    Evaluation evaluation,
    double standard,
    double sensitivity,
    double degreesOfFreedom,
    String unit,
    Tie tie) {

  /** How a standard uncertainty was found. */
  public enum Evaluation {
    /** From repeated observations (JCGM 100:2008 4.2). */
    TYPE_A,
    /** From a rectangular bound, half-width ÷ √3 (JCGM 100:2008 4.3.7). */
    TYPE_B_RECTANGULAR,
    /** From a normal distribution stated by others (JCGM 100:2008 4.3.3). */
    TYPE_B_NORMAL
  }

  public Component {
    if (!(standard >= 0.0) || Double.isInfinite(standard)) {
      throw new IllegalArgumentException(
          "the standard uncertainty of " + source + " must be 0 or more, not " + standard);
    }
    if (!(degreesOfFreedom > 0.0)) {
      throw new IllegalArgumentException(
          "the degrees of freedom of " + source + " must be above 0, not " + degreesOfFreedom);
    }
  }

  /** An independent input in the unit of the measure. */
  public Component(
      String source,
      Evaluation evaluation,
      double standard,
      double sensitivity,
      double degreesOfFreedom) {
    this(source, evaluation, standard, sensitivity, degreesOfFreedom, "", Tie.NONE);
  }

  /** From repeated observations: a standard deviation of the mean with its degrees of freedom. */
  public static Component typeA(String source, double standard, double degreesOfFreedom) {
    return new Component(source, Evaluation.TYPE_A, standard, 1.0, degreesOfFreedom);
  }

  /** From a bound: anywhere within ±halfWidth is equally likely. */
  public static Component rectangular(String source, double halfWidth, double sensitivity) {
    return new Component(
        source,
        Evaluation.TYPE_B_RECTANGULAR,
        halfWidth / Math.sqrt(3.0),
        sensitivity,
        Double.POSITIVE_INFINITY);
  }

  /** The same input where the measure changes {@code factor} times as much with it. */
  public Component times(double factor) {
    return new Component(
        source, evaluation, standard, sensitivity * factor, degreesOfFreedom, unit, tie);
  }

  /** The same input under another name, for a budget that holds it more than once. */
  public Component named(String name) {
    return new Component(name, evaluation, standard, sensitivity, degreesOfFreedom, unit, tie);
  }

  /** The same input with its unit; one that is known already stays. */
  public Component in(String inputUnit) {
    return unit.isEmpty()
        ? new Component(source, evaluation, standard, sensitivity, degreesOfFreedom, inputUnit, tie)
        : this;
  }

  /** The same input, known as what it contributes, which is of this unit. */
  public Component inMeasure(String ofMeasure) {
    return new Component(
        source,
        evaluation,
        contribution(),
        Math.signum(sensitivity),
        degreesOfFreedom,
        ofMeasure,
        tie);
  }

  /**
   * The same input, which has something in common with all others of the same kind and id.
   *
   * @param id what ties them
   */
  public Component tied(Tie.Kind kind, String id) {
    Tie with = new Tie(kind, id, source);
    return new Component(source, evaluation, standard, sensitivity, degreesOfFreedom, unit, with);
  }

  /** By what the value below is divided to give the standard uncertainty. */
  public double divisor() {
    return evaluation == Evaluation.TYPE_B_RECTANGULAR ? Math.sqrt(3.0) : 1.0;
  }

  /** What was known of it: the half-width of a rectangular bound, else a standard deviation. */
  public double known() {
    return standard * divisor();
  }

  /** What it adds to the measure's standard uncertainty: |c|·u. */
  public double contribution() {
    return Math.abs(sensitivity) * standard;
  }
}
