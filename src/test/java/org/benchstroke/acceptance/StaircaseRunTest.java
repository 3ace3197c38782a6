package org.benchstroke.acceptance;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.nio.file.Files;
import java.nio.file.Path;
import org.benchstroke.judge.JudgedRun;
import org.benchstroke.judge.Measure;
import org.benchstroke.record.Event;
import org.benchstroke.record.RunRecord;
import org.benchstroke.simulator.Simulation;
import org.benchstroke.simulator.SimulationReader;
import org.benchstroke.unit.MeasureKind;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * Dead band and resolution of simulated units whose controller settings are known. R = h_on − h_off
 * + c and D = h_on + h_off − c is arithmetic on an on/off controller; c comes out of the motor.
 */
class StaircaseRunTest {
  @TempDir Path folder;

  private static String tests(String search, int cycles) {
    String keys =
        "at_pct = [50]\nstep_pct = 0.05\nmost_pct = 3\nsearch = \"%s\"\ncycles = %d\n"
            .formatted(search, cycles);
    return "[[test]]\ntest = \"exercise\"\nstrokes = 1\n[[test]]\ntest = \"dead band\"\n"
        + keys
        + "[[test]]\ntest = \"resolution\"\n"
        + keys;
  }

  /** T 30, h_on 1.0, h_off 0.5, unless the tables given say otherwise. */
  private VirtualBench unit(String tables) throws Exception {
    String type =
        Files.readString(Path.of("demo-data/unit-types/quarter-turn-15s.toml"))
            .replace("stroke_time_s = 15.0", "stroke_time_s = 30.0")
            .replace("dead_band_pct = 0.5 ", "dead_band_pct = 1.0 ")
            .replaceAll("(?s)\\[limits].*", "")
            .concat("[limits]\ndead_band_pct = { min = 0.4, max = 2.0 }\nresolution_pct = 1.0\n");
    Files.writeString(folder.resolve("type.toml"), type);
    Path file = folder.resolve("unit.toml");
    Files.writeString(
        file,
        """
        kind = "simulation"
        format = 1
        name = "Known settings"
        shows = "an on/off controller with known settings"
        unit_type = "type.toml"
        seed = 11
        angle_reference = "absent"
        """
            + tables);
    Simulation simulation = SimulationReader.read(file);
    return VirtualBench.with(simulation);
  }

  private static final String SETTINGS = "[control]\nstart_pct = 1.0\nstop_pct = 0.5\n";

  @Test
  void theSettingsOfTheUnitAreRecovered() throws Exception {
    for (String search : new String[] {"fixed", "adaptive"}) {
      JudgedRun run = unit(SETTINGS).tests(tests(search, 2)).judge();
      for (String place : new String[] {"50 % up", "50 % down"}) {
        double band = value(run, MeasureKind.DEAD_BAND, place);
        double step = value(run, MeasureKind.RESOLUTION, place);
        assertThat(step).as(search + place).isCloseTo(0.70, within(0.05));
        assertThat(band).as(search + place).isCloseTo(1.30, within(0.05));
        // Both brackets are δ wide: their sum can be off by δ, to the last bit.
        assertThat(band + step).isCloseTo(2.00, within(0.05 + 1e-9));
        assertThat(value(run, MeasureKind.START_THRESHOLD, place)).isCloseTo(1.0, within(0.03));
        assertThat(run.judgements())
            .filteredOn(j -> j.measure().kind() == MeasureKind.START_THRESHOLD)
            .allMatch(j -> j.measure().note().contains("% that noise may have taken off"));
        assertThat(value(run, MeasureKind.STOP_LEAD, place))
            .isCloseTo((band - step) / 2, within(1e-9));
      }
      assertThat(run.sentences()).anyMatch(f -> f.startsWith("Margin to hunting at 50 % up"));
    }
  }

  @Test
  void theAdaptiveSearchNeedsAboutAThirdOfTheSteps() throws Exception {
    long fixed = steps(unit(SETTINGS).tests(tests("fixed", 2)).run());
    long adaptive = steps(unit(SETTINGS).tests(tests("adaptive", 2)).run());
    assertThat(adaptive).isLessThanOrEqualTo((long) (0.4 * fixed));
  }

  @Test
  void theWaitsOfARecordHaveClearNames() throws Exception {
    RunRecord record = unit(SETTINGS).tests(tests("fixed", 2)).run();
    assertThat(record.entries())
        .anyMatch(e -> e.event() instanceof Event.Rested r && r.label().equals("dead band 50 up"))
        .anyMatch(
            e -> e.event() instanceof Event.Rested r && r.label().equals("dead band 50 up #3"))
        .anyMatch(
            e -> e.event() instanceof Event.Rested r && r.label().equals("resolution 50 down #3"));
  }

  @Test
  void aUnitOfReversedActionAndOneWithAnOffsetGiveTheSame() throws Exception {
    String tests = tests("adaptive", 2);
    JudgedRun plain = unit(SETTINGS).tests(tests).judge();
    JudgedRun offset = unit(SETTINGS + "[transmitter]\nzero_pct = 1.3\n").tests(tests).judge();
    JudgedRun reversed =
        unit(SETTINGS + "action = \"reverse\"\n")
            .unitType(text -> text.replace("action = \"direct\"", "action = \"reverse\""))
            .tests(tests)
            .judge();
    for (MeasureKind kind : new MeasureKind[] {MeasureKind.DEAD_BAND, MeasureKind.RESOLUTION}) {
      for (String place : new String[] {"50 % up", "50 % down"}) {
        // Each bracket is δ wide.
        double as = value(plain, kind, place);
        assertThat(value(offset, kind, place)).isCloseTo(as, within(0.05 + 1e-9));
        assertThat(value(reversed, kind, place)).isCloseTo(as, within(0.05 + 1e-9));
      }
    }
  }

  @Test
  void aUnitThatComesByACorrectivePulseHasNoResultAndTheReasonIsSaid() throws Exception {
    Measure band = measure(pulsing("0.50"), MeasureKind.DEAD_BAND, "50 % up");
    assertThat(band.value()).isEmpty();
    assertThat(band.note()).contains("corrective pulse");
  }

  /** A long coast: it overruns by about its start threshold, and may come back in a pulse. */
  private JudgedRun pulsing(String startPercent) throws Exception {
    String unit =
        """
        [motor]
        stroke_90_deg_s = 15
        brake_s = 0.1
        coast_deg_per_s2 = 20
        [control]
        stop_pct = 0.1
        start_pct = %s
        """
            .formatted(startPercent);
    return unit(unit)
        .unitType(text -> text.replace("stroke_time_s = 30.0", "stroke_time_s = 15.0"))
        .tests(tests("adaptive", 2))
        .judge();
  }

  private static long steps(RunRecord record) {
    return record.entries().stream()
        .filter(e -> e.event() instanceof Event.Rested r && r.label().contains(" #"))
        .count();
  }

  private static double value(JudgedRun run, MeasureKind kind, String place) {
    return measure(run, kind, place).value().orElseThrow();
  }

  private static Measure measure(JudgedRun run, MeasureKind kind, String place) {
    return run.judgements().stream()
        .map(j -> j.measure())
        .filter(m -> m.kind() == kind && m.place().words().equals(place))
        .findFirst()
        .orElseThrow();
  }
}
