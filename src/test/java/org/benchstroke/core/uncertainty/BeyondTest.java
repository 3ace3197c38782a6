package org.benchstroke.core.uncertainty;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import org.junit.jupiter.api.Test;

/** The probability beyond a distance: the other way round of the half-width that holds 95 %. */
class BeyondTest {
  private static final Component NORMAL =
      new Component(
          "stated", Component.Evaluation.TYPE_B_NORMAL, 0.1, 1.0, Double.POSITIVE_INFINITY);

  @Test
  void whatTheExpandedUncertaintyLeavesOutsideIsHalvedBetweenTheSides() {
    for (List<Component> inputs :
        List.of(
            List.of(NORMAL),
            List.of(Component.typeA("readings", 0.1, 4)),
            List.of(Component.rectangular("bound", 0.2, 1.0)),
            List.of(Component.rectangular("bound", 0.2, 1.0), Component.typeA("r", 0.05, 3)),
            List.of(Component.rectangular("bound", 0.2, 1.0), NORMAL))) {
      Budget budget = new Budget("%", inputs);
      double half = budget.expand().half();
      assertThat(budget.errors().above(half)).as("%s", inputs).isCloseTo(0.025, within(0.0005));
      assertThat(budget.errors().above(0.0)).isCloseTo(0.5, within(0.002));
      assertThat(budget.errors().above(Double.POSITIVE_INFINITY)).isZero();
    }
  }

  /** Closed forms: the tail of the normal distribution, and of a rectangle. */
  @Test
  void knownTails() {
    assertThat(new Budget("%", List.of(NORMAL)).errors().above(0.1))
        .isCloseTo(0.158_655, within(1e-5));
    Budget rectangle = new Budget("%", List.of(Component.rectangular("bound", 0.2, 1.0)));
    assertThat(rectangle.errors().above(0.1)).isCloseTo(0.25, within(0.003));
    assertThat(rectangle.errors().above(0.21)).isCloseTo(0.0, within(1e-9));
  }

  @Test
  void theBasisOfTheFactorIsNamed() {
    assertThat(new Budget("%", List.of(NORMAL)).basis()).isEqualTo(Budget.Basis.NORMAL);
    assertThat(new Budget("%", List.of(NORMAL, Component.typeA("r", 0.1, 4))).basis())
        .isEqualTo(Budget.Basis.STUDENT);
    assertThat(new Budget("%", List.of(NORMAL, Component.rectangular("b", 0.1, 1.0))).basis())
        .isEqualTo(Budget.Basis.SHAPE);
  }
}
