package org.benchstroke.core.uncertainty;

import java.util.List;
import java.util.Objects;
import java.util.OptionalDouble;

/**
 * An uncertainty budget: uncorrelated inputs, first order (JCGM 100:2008 5.1). Inputs that have
 * something in common ({@link Tie}) are put together into one line each. Immutable, safe for any
 * thread. What it comes to for the usual coverage is worked out once, when it is first asked for:
 * judge, pages and risks all ask.
 */
public final class Budget {
  /** The coverage probability that is used unless another was agreed. */
  public static final double COVERAGE = 0.95;

  private static final double INFINITE = Double.POSITIVE_INFINITY;

  /** k of the normal distribution for that coverage. */
  private static final double TWO_SIDED = CoverageFactor.of(COVERAGE, INFINITE);

  /** What the coverage factor of a budget rests on. */
  public enum Basis {
    /** Draws of all inputs (JCGM 101), for what is no straight function of them. */
    DRAWS,
    /** The shape of the sum of the inputs, some of them rectangular. */
    SHAPE,
    /** Student's distribution for the effective degrees of freedom. */
    STUDENT,
    /** The normal distribution: no input was estimated from few readings. */
    NORMAL
  }

  private final String unit;
  private final List<Component> components;
  private final OptionalDouble drawnHalf;

  /** The three below: null until asked for; of two threads that ask at once, both work them out. */
  private volatile SumShape shape;

  private volatile Expanded first;
  private volatile Expanded expanded;

  /**
   * Of these inputs.
   *
   * @param unit the unit of the measure
   * @param components its inputs, to the first order
   * @param drawnHalf U for a coverage of 95 % by draws ({@link DrawnErrors}), of a measure that is
   *     no straight function of its inputs; empty for all others
   */
  public Budget(String unit, List<Component> components, OptionalDouble drawnHalf) {
    this.unit = unit;
    this.components = Tied.together(components);
    this.drawnHalf = drawnHalf;
  }

  /** Of a straight function of its inputs. */
  public Budget(String unit, List<Component> components) {
    this(unit, components, OptionalDouble.empty());
  }

  /** The unit of the measure. */
  public String unit() {
    return unit;
  }

  /** Its inputs; what is tied together is one. */
  public List<Component> components() {
    return components;
  }

  /** U by draws, for a measure that is no straight function of its inputs. */
  public OptionalDouble drawnHalf() {
    return drawnHalf;
  }

  /** u_c: the root of the sum of the squared contributions (JCGM 100:2008 5.1.2, equation 10). */
  public double combinedStandard() {
    double squares = 0.0;
    for (Component component : components) {
      squares += component.contribution() * component.contribution();
    }
    return Math.sqrt(squares);
  }

  /**
   * ν_eff by Welch–Satterthwaite (JCGM 100:2008 G.4.1, equation G.2b), not yet truncated. Infinite
   * if no contribution with finite degrees of freedom is above zero.
   */
  public double effectiveDegreesOfFreedom() {
    double combined = combinedStandard();
    double sum = 0.0;
    for (Component component : components) {
      // As shares of u_c, so that tiny uncertainties don't vanish in their fourth powers.
      double share = combined > 0.0 ? component.contribution() / combined : 0.0;
      sum += Math.pow(share, 4) / component.degreesOfFreedom();
    }
    return sum > 0.0 ? 1.0 / sum : Double.POSITIVE_INFINITY;
  }

  /** The expanded uncertainty for a coverage of 95 %, by the shape of the inputs. */
  public Expanded expand() {
    Expanded known = expanded;
    if (known == null) {
      known = expanded(COVERAGE);
      expanded = known;
    }
    return known;
  }

  /**
   * The expanded uncertainty by the shape of the inputs: U is the half-width that holds the sum of
   * them with the probability p. Where a rectangular input outweighs the rest, k is less than 2
   * (EA-4/02 S9, from memory: 1.65), for 2·u_c would hold more than there is. Without a rectangular
   * input it is {@link #firstOrder}. Where U was found by draws for this coverage, it is that.
   *
   * @param coverage p, above 0 and below 1
   */
  public Expanded expand(double coverage) {
    return coverage == COVERAGE ? expand() : expanded(coverage);
  }

  private Expanded expanded(double coverage) {
    Expanded straight = firstOrder(coverage);
    double standard = straight.standard();
    if (basis() == Basis.DRAWS && coverage == COVERAGE) {
      double drawn = drawnHalf.getAsDouble();
      return new Expanded(standard, straight.degreesOfFreedom(), coverage, drawn / standard, drawn);
    }
    if (!shaped()) {
      return straight;
    }
    double half = shape(coverage).halfWidth();
    return new Expanded(standard, straight.degreesOfFreedom(), coverage, half / standard, half);
  }

  /**
   * The distribution of the error that {@link #expand} states: half of what U leaves outside is
   * above U. Of a measure whose U was found by draws, or is a bound, it is taken for normal.
   */
  public ErrorDistribution errors() {
    double standard = combinedStandard();
    double degrees = effectiveDegreesOfFreedom();
    return switch (basis()) {
      case DRAWS -> ErrorDistribution.normal(drawnHalf.getAsDouble() / TWO_SIDED);
      case SHAPE -> {
        SumShape sum = shape(COVERAGE);
        yield new ErrorDistribution(standard, sum::beyond);
      }
      case STUDENT, NORMAL ->
          new ErrorDistribution(standard, d -> CoverageFactor.beyond(d / standard, degrees));
    };
  }

  private SumShape shape(double coverage) {
    if (coverage != COVERAGE) {
      return new SumShape(components, coverage);
    }
    SumShape known = shape;
    if (known == null) {
      known = new SumShape(components, COVERAGE);
      shape = known;
    }
    return known;
  }

  /** On what k of {@link #expand} rests. */
  public Basis basis() {
    if (drawnHalf.isPresent() && combinedStandard() > 0.0) {
      return Basis.DRAWS;
    }
    if (shaped()) {
      return Basis.SHAPE;
    }
    return Double.isInfinite(effectiveDegreesOfFreedom()) ? Basis.NORMAL : Basis.STUDENT;
  }

  private boolean shaped() {
    return components.stream()
        .filter(c -> c.evaluation() == Component.Evaluation.TYPE_B_RECTANGULAR)
        .anyMatch(c -> c.contribution() > 0.0);
  }

  /**
   * The expanded uncertainty U = t_p(ν_eff)·u_c (JCGM 100:2008 G.4.1), which takes the sum for
   * normal.
   *
   * @param coverage p, above 0 and below 1
   */
  public Expanded firstOrder(double coverage) {
    if (coverage != COVERAGE) {
      return straight(coverage);
    }
    Expanded known = first;
    if (known == null) {
      known = straight(COVERAGE);
      first = known;
    }
    return known;
  }

  private Expanded straight(double coverage) {
    double standard = combinedStandard();
    double degrees = effectiveDegreesOfFreedom();
    double k = CoverageFactor.of(coverage, degrees);
    return new Expanded(standard, degrees, coverage, k, k * standard);
  }

  @Override
  public boolean equals(Object other) {
    return other instanceof Budget b
        && unit.equals(b.unit)
        && components.equals(b.components)
        && drawnHalf.equals(b.drawnHalf);
  }

  @Override
  public int hashCode() {
    return Objects.hash(unit, components, drawnHalf);
  }

  @Override
  public String toString() {
    return "Budget[unit=" + unit + ", components=" + components + ", drawnHalf=" + drawnHalf + "]";
  }
}
