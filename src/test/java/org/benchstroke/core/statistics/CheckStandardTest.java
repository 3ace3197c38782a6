package org.benchstroke.core.statistics;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import org.benchstroke.core.statistics.CheckStandard.Judged;
import org.benchstroke.core.statistics.CheckStandard.Reading;
import org.junit.jupiter.api.Test;

/** Values made up; the limits at 2σ and 3σ are NIST/SEMATECH e-Handbook 2.2.2, from memory. */
class CheckStandardTest {
  private static final LocalDate START = LocalDate.of(2026, 3, 2);

  /** Mean 12, s = 0.01: five pairs at ±0.01·√(9/10). */
  private static final double OFF = 0.01 * Math.sqrt(0.9);

  @Test
  void warnsBeyondTwoAndStopsBeyondThree() {
    assertThat(after(12.0199)).isInstanceOf(CheckState.InControl.class);
    assertThat(after(12.0201)).isInstanceOf(CheckState.Warning.class);
    assertThat(after(11.9701)).isInstanceOf(CheckState.Warning.class);
    assertThat(after(11.9699)).isInstanceOf(CheckState.Stop.class);
    assertThat(((CheckState.Stop) after(12.05)).score()).isCloseTo(5.0, within(1e-6));
    assertThat(after(12.05).good()).isFalse();
  }

  @Test
  void withoutABaselineNothingIsKnown() {
    List<Reading> nine = readings(baseline().subList(0, 9));
    CheckStandard check = CheckStandard.of(nine, new Baseline.First(10));
    assertThat(check.state()).isEqualTo(new CheckState.TooFew(9, 10));
    assertThat(check.state().good()).isFalse();
    assertThat(check.judged()).isEmpty();
    assertThat(CheckStandard.of(List.of(), new Baseline.Known(12, 0.01)).state())
        .isEqualTo(new CheckState.TooFew(0, 1));
  }

  @Test
  void aBaselineThatNeverChangesIsFrozen() {
    CheckStandard check =
        CheckStandard.of(readings(Collections.nCopies(12, 12.1)), new Baseline.First(12));
    assertThat(check.state()).isEqualTo(new CheckState.Frozen(12));
  }

  @Test
  void theSameValueToTheLastDigitIsNoGoodReading() {
    List<Double> values = baseline();
    values.addAll(List.of(12.001, 12.001, 12.001));
    // by chance at most 1 in 11 equals the one before: three equal are 0.8 %, four 0.08 %
    assertThat(of(values).state()).isInstanceOf(CheckState.InControl.class);
    values.add(12.001);
    assertThat(of(values).state()).isEqualTo(new CheckState.Frozen(4));
    // the first of the four, the eleventh of all, can have been real; the others not
    assertThat(of(values).lastGoodBefore(13)).contains(new Reading(START.plusDays(10), 12.001));
    values.add(12.002);
    assertThat(of(values).state()).isInstanceOf(CheckState.InControl.class);
  }

  @Test
  void aCoarseReadingMayRepeatItself() {
    List<Double> values =
        new ArrayList<>(List.of(1.0, 1.0, 1.0, 2.0, 2.0, 1.0, 1.0, 1.0, 2.0, 1.0));
    values.addAll(Collections.nCopies(6, 1.0));
    assertThat(of(values).state()).isInstanceOf(CheckState.InControl.class);
    values.addAll(Collections.nCopies(20, 1.0));
    assertThat(of(values).state()).isInstanceOf(CheckState.Frozen.class);
  }

  @Test
  void aStopIsNotUndoneByAGoodReadingAndNamesTheLastGoodOne() {
    List<Double> values = baseline();
    values.addAll(List.of(12.001, 12.08, 12.07, 12.002));
    CheckStandard check = of(values);
    assertThat(check.state()).isInstanceOf(CheckState.InControl.class);
    assertThat(check.stops()).extracting(j -> j.reading().value()).containsExactly(12.08, 12.07);
    assertThat(check.lastGoodBefore(12)).contains(new Reading(START.plusDays(10), 12.001));
    assertThat(check.judged()).filteredOn(Judged::baseline).hasSize(10);
  }

  @Test
  void whereNoReadingWasGoodAllIsInDoubt() {
    CheckStandard check =
        CheckStandard.of(readings(List.of(13.0, 13.1)), new Baseline.Known(12.0, 0.01));
    assertThat(check.lastGoodBefore(1)).isEmpty();
  }

  @Test
  void readingsStandInTheOrderOfTime() {
    List<Reading> wrong = List.of(new Reading(START, 1.0), new Reading(START.minusDays(1), 2.0));
    assertThatThrownBy(() -> CheckStandard.of(wrong, new Baseline.First(10)))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessageContaining("2026-03-01 comes after 2026-03-02");
  }

  private static CheckState after(double value) {
    List<Double> values = baseline();
    values.add(value);
    return of(values).state();
  }

  private static CheckStandard of(List<Double> values) {
    return CheckStandard.of(readings(values), new Baseline.First(10));
  }

  private static List<Double> baseline() {
    List<Double> values = new ArrayList<>();
    for (int i = 0; i < 5; i++) {
      values.add(12.0 + OFF);
      values.add(12.0 - OFF);
    }
    return values;
  }

  private static List<Reading> readings(List<Double> values) {
    List<Reading> readings = new ArrayList<>();
    for (int i = 0; i < values.size(); i++) {
      readings.add(new Reading(START.plusDays(i), values.get(i)));
    }
    return readings;
  }
}
