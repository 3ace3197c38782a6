package org.benchstroke.core.uncertainty;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import org.junit.jupiter.api.Test;

/** Inputs of a budget that have something in common, by hand. */
class TiedTest {
  private static Component bound(double half, double sensitivity, String box) {
    return Component.rectangular("accuracy", half, sensitivity).tied(Tie.Kind.ONE_INSTRUMENT, box);
  }

  /** JCGM 100:2008 5.2.2 note 1, from memory: inputs correlated with ±1 add up linearly. */
  @Test
  void boundsOfOneInstrumentAddUpWhateverTheirSigns() {
    Budget span = new Budget("%", List.of(bound(0.03, 6.25, "a"), bound(0.01, -6.25, "a")));
    assertThat(span.components()).hasSize(1);
    assertThat(span.components().get(0).known()).isCloseTo(0.04, within(1e-12));
    assertThat(span.components().get(0).sensitivity()).isEqualTo(6.25);
    // 95 % of a rectangle of ±0.25 %
    assertThat(span.expand().half()).isCloseTo(0.95 * 0.25, within(0.002));
  }

  @Test
  void thoseOfTwoInstrumentsDoNot() {
    Budget two = new Budget("%", List.of(bound(0.03, 1.0, "a"), bound(0.03, 1.0, "b")));
    assertThat(two.components()).hasSize(2);
    assertThat(two.combinedStandard())
        .isCloseTo(0.03 / Math.sqrt(3.0) * Math.sqrt(2.0), within(1e-12));
  }

  /** √(0.5² + 0.5²) · 0.1 %, and the degrees of freedom of the one estimate: 4, not 8. */
  @Test
  void oneEstimateThatServesTwiceCountsOnce() {
    Component s = Component.typeA("scatter", 0.1, 4).tied(Tie.Kind.ONE_ESTIMATE, "s");
    Budget budget = new Budget("%", List.of(s.times(0.5), s.times(-0.5)));
    assertThat(budget.combinedStandard()).isCloseTo(0.1 / Math.sqrt(2.0), within(1e-12));
    assertThat(budget.effectiveDegreesOfFreedom()).isCloseTo(4.0, within(1e-9));
    Component one = Component.typeA("first", 0.1, 4);
    Budget apart = new Budget("%", List.of(one.times(0.5), one.times(-0.5)));
    assertThat(apart.effectiveDegreesOfFreedom()).isCloseTo(8.0, within(1e-9));
  }

  @Test
  void differentSensitivitiesAreToldInTheUnitOfTheMeasure() {
    Budget bent =
        new Budget("%", List.of(bound(0.02, 2.0, "a").in("mA"), bound(0.03, -4.0, "a").in("mA")));
    Component one = bent.components().get(0);
    assertThat(one.unit()).isEmpty();
    assertThat(one.known()).isCloseTo(0.16, within(1e-12));
    assertThat(one.source()).isEqualTo("accuracy, 2 together");
  }
}
