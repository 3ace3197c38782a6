package org.benchstroke.imported;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Random;
import org.benchstroke.core.toml.FileMistakes;
import org.benchstroke.core.uncertainty.Component;
import org.benchstroke.judge.JudgedRun;
import org.benchstroke.judge.Judgement;
import org.benchstroke.judge.Measure;
import org.benchstroke.judge.Word;
import org.benchstroke.unit.MeasureKind;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A setpoint is what was written or measured, to its last digit. */
class SetpointsTest {
  @TempDir Path folder;

  private static Measure error(JudgedRun run, String place) {
    return run.judgements().stream()
        .map(Judgement::measure)
        .filter(m -> m.kind() == MeasureKind.TRAVEL_ERROR && m.place().words().equals(place))
        .findFirst()
        .orElseThrow(() -> new AssertionError(place + ": " + run.judgements()));
  }

  private static double digits(Measure measure) {
    return measure.budget().orElseThrow().components().stream()
        .filter(c -> c.source().equals("setpoint, half its last digit"))
        .mapToDouble(Component::contribution)
        .sum();
  }

  /** (8.1 − 4) mA ÷ 16 mA is 25.625 % of travel, by the definition of the range. */
  @Test
  void milliampsAreNeverRounded() throws FileMistakes {
    String text =
        """
        setpoint [mA],direction,cycle,reading [%]
        8.1,up,1,24.565
        12,up,1,50.0
        20,up,1,100.0
        12,down,1,50.1
        8.1,down,1,25.7
        4,down,1,0.1
        """;
    JudgedRun run =
        new Foreign(folder).bench("resolution_pct = 0.1", "resolution_pct = 0.001").judge(text);
    Measure measure = error(run, "25.625 % up");
    assertThat(measure.value().orElseThrow()).isCloseTo(-1.06, within(1e-9));
    // Half of 0.1 mA, rectangular (JCGM 100:2008 F.2.2.1): 0.05/√3 mA, 6.25 % of travel for each.
    assertThat(digits(measure)).isCloseTo(0.05 / Math.sqrt(3.0) * 6.25, within(1e-9));
    assertThat(run.verdict()).isNotEqualTo(Word.PASS);
    JudgedRun finer =
        new Foreign(folder)
            .bench("resolution_pct = 0.1", "resolution_pct = 0.001")
            .judge(text.replace("8.1,", "8.100,"));
    assertThat(digits(error(finer, "25.625 % up")))
        .isCloseTo(0.0005 / Math.sqrt(3.0) * 6.25, within(1e-9));
    assertThat(finer.verdict()).as(finer.reason()).isNotEqualTo(Word.PASS);
  }

  /** Whole numbers are what was asked for; what differs from its point was read. */
  @Test
  void halfOfTheLastDigitCountsWhereASetpointWasRead() throws FileMistakes {
    String text =
        """
        setpoint [%],direction,cycle,reading [%]
        33,up,1,33.0
        67,up,1,66.9
        100,up,1,99.9
        67,down,1,67.1
        33,down,1,33.0
        0,down,1,0.0
        """;
    assertThat(digits(error(new Foreign(folder).judge(text), "33 % up"))).isZero();
    JudgedRun thirds = new Foreign(folder).travel("0, 33.33, 66.67, 100", 1).judge(text);
    Measure third = error(thirds, "33.33 % up");
    assertThat(third.value().orElseThrow()).isCloseTo(0.0, within(1e-9));
    assertThat(digits(third)).isCloseTo(0.5 / Math.sqrt(3.0), within(1e-9));
    String exact = text.replace("33,", "33.33,").replace("67,", "66.67,");
    JudgedRun sound = new Foreign(folder).travel("0, 33.33, 66.67, 100", 1).judge(exact);
    assertThat(error(sound, "33.33 % up").value().orElseThrow()).isCloseTo(-0.33, within(1e-9));
    assertThat(sound.passed()).as(sound.reason()).isTrue();
  }

  /** Reverse action: (20 − 15.9) mA ÷ 16 mA. */
  @Test
  void reverseAction() throws FileMistakes {
    String text =
        """
        setpoint [mA],direction,cycle,reading [%]
        15.900,up,1,24.625
        12,up,1,49.998
        4,up,1,99.999
        12,down,1,50.003
        15.900,down,1,25.625
        20,down,1,0.0
        """;
    JudgedRun run =
        new Foreign(folder)
            .bench("resolution_pct = 0.1", "resolution_pct = 0.001")
            .unit("action = \"direct\"", "action = \"reverse\"")
            .judge(text);
    assertThat(error(run, "25.625 % up").value().orElseThrow()).isCloseTo(-1.0, within(1e-9));
  }

  /** Measured setpoints differ from cycle to cycle; each reading is held against its own. */
  @Test
  void measuredSetpointsKeepEachItsOwn() throws FileMistakes {
    Random random = new Random(7);
    List<String> lines = new ArrayList<>(List.of("setpoint [mA],direction,cycle,reading [%]"));
    List<Double> setpoints = List.of(8.0, 12.0, 16.0, 20.0, 16.0, 12.0, 8.0, 4.0);
    for (int i = 0; i < setpoints.size(); i++) {
      double measured = setpoints.get(i) + 0.003 * (2.0 * random.nextDouble() - 1.0);
      double written = Math.rint(measured * 10_000.0) / 10_000.0;
      double reading = (written - 4.0) / 16.0 * 100.0 + 0.5;
      lines.add(
          String.format(Locale.ROOT, "%.4f,%s,1,%.4f", written, i < 4 ? "up" : "down", reading));
    }
    JudgedRun run =
        new Foreign(folder)
            .bench("resolution_pct = 0.1", "resolution_pct = 0.001")
            .travel("0, 25, 50, 75, 100", 1)
            .judge(lines);
    for (Judgement each : run.judgements()) {
      if (each.measure().kind() == MeasureKind.TRAVEL_ERROR) {
        assertThat(each.measure().value().orElseThrow())
            .as(each.measure().place().words())
            .isCloseTo(0.5, within(1e-4));
      }
    }
  }

  /** A trace with a setpoint that is 0.5 % off its point: the error is against what was asked. */
  @Test
  void aTraceKeepsItsSetpoints() throws FileMistakes {
    MadeUpTrace trace = new MadeUpTrace(3).to(0.0).cycle(0.0, 25.125, 50.0, 100.0);
    JudgedRun run = new Foreign(folder).logged().judge(trace.lines());
    assertThat(error(run, "25.125 % up").value().orElseThrow()).isCloseTo(-0.05, within(0.01));
  }

  /** Eleven points: no single step is large, but the unit goes all the way with its signal. */
  @Test
  void theActionIsProvenByWhatIsThere() throws FileMistakes {
    List<String> lines = new ArrayList<>(List.of("setpoint [%],direction,cycle,reading [%]"));
    List<String> reversed = new ArrayList<>(lines);
    for (int i = 1; i <= 20; i++) {
      int at = i <= 10 ? 10 * i : 200 - 10 * i;
      String row = at + "," + (i <= 10 ? "up" : "down") + ",1,";
      lines.add(row + at + ".1");
      reversed.add(row + (100 - at) + ".1");
    }
    String points = "0, 10, 20, 30, 40, 50, 60, 70, 80, 90, 100";
    JudgedRun run = new Foreign(folder).travel(points, 1).judge(lines);
    assertThat(run.passed()).as(run.reason()).isTrue();
    JudgedRun wrong =
        new Foreign(folder).travel(points, 1).limits("travel_error_pct = 200").judge(reversed);
    assertThat(wrong.reason()).contains("action");
    assertThat(wrong.verdict()).isEqualTo(Word.FAIL);
  }

  /** 10 % of a 3 s unit take 0.3 s; it starts 2.5 s after the signal and comes to its place. */
  @Test
  void aDeadTimeIsNoPlaceOfRest() throws FileMistakes {
    MadeUpTrace trace = new MadeUpTrace(5).stroke(3.0).dead(2.5).to(0.0, 6.0);
    trace.cycle(0.0, 10.0, 20.0, 30.0, 40.0, 50.0, 60.0, 70.0, 80.0, 90.0, 100.0);
    JudgedRun run =
        new Foreign(folder)
            .logged()
            .unit("stroke_time_s = 15.0", "stroke_time_s = 3.0")
            .travel("0, 10, 20, 30, 40, 50, 60, 70, 80, 90, 100", 1)
            .judge(trace.lines());
    assertThat(run.passed()).as(run.reason() + run.judgements()).isTrue();
  }
}
