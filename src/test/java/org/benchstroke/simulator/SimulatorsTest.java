package org.benchstroke.simulator;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import org.benchstroke.core.toml.FileMistakes;
import org.benchstroke.io.instrument.Identity;
import org.benchstroke.io.instrument.Instrument;
import org.benchstroke.io.instrument.InstrumentException;
import org.benchstroke.io.instrument.LimitSwitch;
import org.junit.jupiter.api.Test;

/** What each file in simulators/ shows, seen through its instruments with the drivers. */
class SimulatorsTest {
  @Test
  void instrumentsSayWhoTheyAre() throws FileMistakes, InstrumentException {
    Station station = new Station("slack-after-sensor.toml");
    List<String> serials = new ArrayList<>();
    for (Instrument instrument : station.bench.instruments()) {
      serials.add(instrument.identify(station.soon()).map(Identity::serial).orElse("none"));
    }
    assertThat(serials).containsExactly("900101", "900202", "900303", "900404");
  }

  @Test
  void nothingMovesBeforeTheRelayIsOn() throws FileMistakes, InstrumentException {
    Station station = new Station("healthy-b.toml");
    double before = station.position();
    assertThat(station.rest(90.0)).isCloseTo(before, within(0.05));
    station.power();
    assertThat(station.rest(90.0)).isCloseTo(90.0, within(0.15));
  }

  @Test
  void soundUnitIsCleanAndClosesOnTheLossOfItsSignal() throws FileMistakes, InstrumentException {
    Station station = new Station("healthy-b.toml");
    station.power();
    for (double point : new double[] {0, 25, 50, 75, 100, 75, 50, 25, 0, 50}) {
      assertThat(station.rest(point)).isCloseTo(point, within(0.13));
      assertThat(station.loop()).isCloseTo(4.0 + 0.16 * point, within(0.008));
    }
    station.bench.source().release(station.soon());
    station.run(20.0);
    assertThat(station.switches())
        .containsEntry(LimitSwitch.CLOSED, true)
        .containsEntry(LimitSwitch.CLOSED_AUXILIARY, true)
        .containsEntry(LimitSwitch.OPEN, false);
  }

  // Source: the project's own simulation, no outside source.
  @Test
  void slackShowsAtTheAngleReferenceOnly() throws FileMistakes, InstrumentException {
    Station station = new Station("slack-after-sensor.toml");
    station.power();
    station.rest(0.0);
    double up = meanAngle(station, new double[] {25, 50, 75});
    station.rest(100.0);
    double down = meanAngle(station, new double[] {75, 50, 25});
    // At one point, the controller's period alone makes 0.13 % of difference either way.
    assertThat((down - up) / 0.9).isBetween(0.90, 1.05);
  }

  private static double meanAngle(Station station, double[] points) throws InstrumentException {
    double sum = 0.0;
    for (double point : points) {
      assertThat(station.rest(point)).isCloseTo(point, within(0.13));
      sum += station.meanAngle();
    }
    return sum / points.length;
  }

  @Test
  void zeroAndSpanErrorsShowOnTheFeedback() throws FileMistakes, InstrumentException {
    Station zero = new Station("zero-shift.toml");
    zero.power();
    Station span = new Station("span-error.toml");
    span.power();
    for (double point : new double[] {0, 50, 100}) {
      assertThat(zero.rest(point) - point).isCloseTo(1.5, within(0.15));
      assertThat(span.rest(point) - point).isCloseTo(0.02 * point, within(0.15));
    }
  }

  @Test
  void shortCamStopsItWithTheSwitchMadeAndTheCurrentRight()
      throws FileMistakes, InstrumentException {
    Station station = new Station("cam-set-short.toml");
    station.power();
    assertThat(station.rest(100.0)).isCloseTo(92.1, within(0.3));
    assertThat(station.switches()).containsEntry(LimitSwitch.OPEN, true);
    assertThat(station.loop()).isCloseTo(20.0, within(0.008));
  }

  @Test
  void reversedUnitRunsTheOtherWay() throws FileMistakes, InstrumentException {
    Station station = new Station("reversed-action.toml");
    station.power();
    assertThat(station.rest(25.0)).isCloseTo(75.0, within(0.15));
  }

  @Test
  void wrongFailActionStays() throws FileMistakes, InstrumentException {
    Station station = new Station("wrong-fail-action.toml");
    station.power();
    double before = station.rest(50.0);
    station.command(3.5);
    station.run(20.0);
    // It follows the falling signal until the loss is taken for one, then stays.
    double after = station.position();
    assertThat(before - after).isBetween(0.5, 6.0);
    station.bench.source().release(station.soon());
    station.run(20.0);
    assertThat(station.position()).isCloseTo(after, within(0.1));
  }

  @Test
  void aSourceOutOfCalibrationMakesLessThanItWasSetTo() throws FileMistakes, InstrumentException {
    Station station = new Station("instrument-out-of-calibration.toml");
    station.command(20.0);
    assertThat(station.loop()).isCloseTo(19.8, within(0.01));
  }

  // Ohm's law: 12 V / 700 Ω = 17.14 mA.
  @Test
  void highLoopResistanceCutsTheTop() throws FileMistakes, InstrumentException {
    Station station = new Station("loop-resistance-too-high.toml");
    station.command(20.0);
    assertThat(station.loop()).isCloseTo(17.14, within(0.02));
    station.command(12.0);
    assertThat(station.loop()).isCloseTo(12.0, within(0.006));
  }
}
