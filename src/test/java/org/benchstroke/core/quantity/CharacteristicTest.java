package org.benchstroke.core.quantity;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import org.benchstroke.core.quantity.Characteristic.EqualPercentage;
import org.benchstroke.core.quantity.Characteristic.Table;
import org.junit.jupiter.api.Test;

class CharacteristicTest {
  private static final Table TABLE =
      new Table(List.of(new Table.Point(0, 0), new Table.Point(50, 20), new Table.Point(100, 100)));

  /** By hand: 50^(−1) = 2 %, 50^(−0.5) = 14.142 %; slope ln 50 · f = 3.912 at 100 %. */
  @Test
  void equalPercentageByHand() {
    Characteristic c = new EqualPercentage(50);
    assertThat(c.lowestPercent()).isCloseTo(2.0, within(1e-12));
    assertThat(c.travelAt(50)).isCloseTo(14.1421356, within(1e-6));
    assertThat(c.travelAt(100)).isCloseTo(100.0, within(1e-12));
    assertThat(c.slopeAt(100)).isCloseTo(3.912023, within(1e-6));
    assertThat(c.signalAt(1.0)).isZero();
  }

  @Test
  void signalAndTravelAreEachOthersInverseAndTheSlopeIsTheDerivative() {
    for (Characteristic c : List.of(Characteristic.linear(), new EqualPercentage(30), TABLE)) {
      for (double s = 1.3; s < 100; s += 7.1) {
        assertThat(c.signalAt(c.travelAt(s))).isCloseTo(s, within(1e-9));
        double slope = (c.travelAt(s + 1e-5) - c.travelAt(s - 1e-5)) / 2e-5;
        assertThat(c.slopeAt(c.travelAt(s))).isCloseTo(slope, within(1e-5));
      }
    }
  }

  @Test
  void aTableBreaksAtItsSteeperSlope() {
    assertThat(TABLE.slopeAt(20)).isCloseTo(1.6, within(1e-12));
    assertThat(TABLE.slopeAt(10)).isCloseTo(0.4, within(1e-12));
  }

  @Test
  void refusesATableThatFalls() {
    assertThatThrownBy(() -> new Table(List.of(new Table.Point(0, 5), new Table.Point(100, 2))))
        .hasMessageContaining("rising");
  }
}
