package org.benchstroke.judge;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Map;
import org.benchstroke.core.uncertainty.Component;
import org.benchstroke.record.Event;
import org.benchstroke.record.RunRecord;
import org.benchstroke.unit.MeasureKind;
import org.junit.jupiter.api.Test;

/** The temperature that was stated for a run, by hand. */
class AmbientTest {
  private static RecordFixture at(boolean influenced, double celsius) {
    RecordFixture fixture = new RecordFixture();
    fixture.influenced = influenced;
    fixture.add(new Event.Job("", Map.of(Event.Job.TEMPERATURE, celsius)));
    return fixture.wholeRun();
  }

  private static double temperature(RecordFixture fixture) {
    return fixture.judge().judgements().stream()
        .map(Judgement::measure)
        .filter(m -> m.kind() == MeasureKind.TRAVEL_ERROR && m.place().words().equals("50 % up"))
        .flatMap(m -> m.budget().orElseThrow().components().stream())
        .filter(c -> c.source().equals("signal source temperature"))
        .mapToDouble(Component::known)
        .findFirst()
        .orElseThrow();
  }

  /**
   * The accuracy holds from 18 to 28 °C, the bench file says 15 to 30 °C: 0.02 % of 12 mA a kelvin.
   */
  @Test
  void itWidensTheTemperaturesOfTheBenchFileAndNeverNarrowsThem() {
    assertThat(temperature(at(true, 23.0))).isCloseTo(3.0 * 0.0024, within(1e-12));
    assertThat(temperature(at(true, 33.0))).isCloseTo(5.0 * 0.0024, within(1e-12));
    assertThat(temperature(at(true, 8.0))).isCloseTo(10.0 * 0.0024, within(1e-12));
  }

  @Test
  void whatUDoesNotKnowIsSaid() {
    assertThat(at(false, 23.0).judge().sentences()).noneMatch(f -> f.contains("°C at the bench"));
    assertThat(at(false, 31.5).judge().sentences())
        .anyMatch(
            f ->
                f.startsWith(
                    "It was 31.5 °C at the bench, 3.5 K outside the range in which the error of"
                        + " source (signal source) is known"));
  }

  /** A record of before the line was known is judged as it was. */
  @Test
  void aRecordWithoutItIsJudgedAsBefore() {
    RecordFixture fixture = new RecordFixture().wholeRun();
    JudgedBench judged =
        JudgedBench.of(fixture.bench(), fixture.unit(), new RunRecord(fixture.entries, List.of()));
    assertThat(judged.bench().ambient()).isEmpty();
  }
}
