package org.benchstroke.commission;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import org.benchstroke.commission.LoopReading.Read;
import org.benchstroke.procedure.Caution;
import org.junit.jupiter.api.Test;

/** The loop is read with the motor supply off, and nothing is left on it but the safe signal. */
class LoopReadingTest {
  private final HandRig rig = new HandRig();

  @Test
  void bothEndsAndTheMiddleAreReadAndNothingMoves() {
    LoopReading loop = new LoopReading(rig.hands());
    HandResult result = loop.read();
    assertThat(result.clean()).as(result.reason()).isTrue();
    assertThat(rig.cautions).containsExactly(Caution.SESSION, Caution.POWER_OFF);
    assertThat(loop.reads()).hasSize(3);
    List<Double> wanted = List.of(4.0, 12.0, 20.0);
    for (int i = 0; i < 3; i++) {
      Read read = loop.reads().get(i);
      assertThat(read.wanted().milliamps()).isEqualTo(wanted.get(i));
      // the simulated instruments are within 0.02 mA (simulators/README.md)
      assertThat(read.found().milliamps()).isCloseTo(wanted.get(i), within(0.02));
    }
    assertThat(result.safe().confirmed()).isTrue();
    assertThat(result.safe().signalMilliamps()).isEqualTo(rig.unitType().safeSignal().milliamps());
  }

  @Test
  void withoutAYesNothingIsSourced() {
    rig.refused = Caution.POWER_OFF;
    LoopReading loop = new LoopReading(rig.hands());
    HandResult result = loop.read();
    assertThat(result.clean()).isFalse();
    assertThat(loop.reads()).isEmpty();
    assertThat(rig.sent).isEmpty();
    assertThat(result.safe().confirmed()).isFalse();
  }

  @Test
  void aLostCableGivesNoReading() {
    rig.cut = true;
    LoopReading loop = new LoopReading(rig.hands());
    assertThat(loop.read().clean()).isFalse();
    assertThat(loop.reads()).isEmpty();
  }
}
