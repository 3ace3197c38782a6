package org.benchstroke.imported;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.benchstroke.core.toml.FileMistakes;
import org.benchstroke.judge.JudgedRun;
import org.benchstroke.judge.TestSummary;
import org.benchstroke.judge.Word;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** What a trace holds beside the stretches that were given to tests is never passed over. */
class MoreInTheFileTest {
  private static final String STROKE = "[[test]]\ntest = \"stroke time\"\nrepeats = ";
  private static final String STEPS =
      "[[test]]\ntest = \"step response\"\nat_pct = 50\nsizes_pct = [10]";
  private static final String LOSS =
      "[[test]]\ntest = \"signal loss\"\nat_pct = 50\nways = [\"lost\"]";
  private static final String STAIRS =
      "[[test]]\ntest = \"dead band\"\nat_pct = [50]\nstep_pct = 0.25\nmost_pct = 3\ncycles = 2"
          + "\nsearch = \"fixed\"";

  /** 3.5 mA of 4 to 20 mA. */
  private static final double LOST_PERCENT = -3.125;

  @TempDir Path folder;

  private JudgedRun judge(String limits, String tests, MadeUpTrace trace) throws FileMistakes {
    return new Foreign(folder).logged().limits(limits).tests(tests).judge(trace.lines());
  }

  private static void passes(JudgedRun run) {
    assertThat(run.passed()).as(run.reason() + run.judgements() + run.orders()).isTrue();
  }

  private static void noResult(JudgedRun run, String... why) {
    assertThat(run.verdict()).as(run.reason() + run.orders()).isEqualTo(Word.NO_RESULT);
    assertThat(run.reason() + run.judgements() + run.orders()).contains(List.of(why));
  }

  private static MadeUpTrace strokes(double... seconds) {
    MadeUpTrace trace = new MadeUpTrace(3).to(0.0);
    for (double each : seconds) {
      trace.stroke(each).to(100.0).to(0.0);
    }
    return trace.to(0.0, 20.0);
  }

  @Test
  void furtherStrokes() throws FileMistakes {
    String limits =
        "stroke_time_opening_s = { min = 13.5, max = 16.5 }\n"
            + "stroke_time_closing_s = { min = 13.5, max = 16.5 }";
    passes(judge(limits, STROKE + 1, strokes(15.0)));
    passes(judge(limits, STROKE + 2, strokes(15.0, 15.0)));
    noResult(judge(limits, STROKE + 1, strokes(15.0, 20.0)), "2 more full strokes", "raise its");
    assertThat(judge(limits, STROKE + 2, strokes(15.0, 20.0)).passed()).isFalse();
    // What was judged and failed stands.
    assertThat(judge(limits, STROKE + 1, strokes(20.0, 15.0)).verdict()).isEqualTo(Word.FAIL);
    MadeUpTrace half = strokes(15.0).stroke(20.0).to(100.0);
    noResult(judge(limits, STROKE + 1, half), "1 more full stroke than");
  }

  /** It has no place of its own among the setpoints of a file. */
  @Test
  void aPartialStrokeIsNotLookedFor() throws FileMistakes {
    String partial = "[[test]]\ntest = \"partial stroke\"\nfrom_pct = 0\nto_pct = 15\ncycles = 1";
    MadeUpTrace trace = new MadeUpTrace(6).to(0.0).to(0.0, 10.0).to(15.0).to(0.0).to(0.0, 10.0);
    JudgedRun run = judge("partial_stroke_time_s = 4.0", partial, trace);
    noResult(run, "the test was not completed");
    assertThat(run.tests())
        .extracting(TestSummary::reason)
        .containsExactly("a file can't show it: it is not found in setpoint and position alone");
  }

  @Test
  void furtherSteps() throws FileMistakes {
    String limits = "step_overshoot_pct = 0.5";
    MadeUpTrace trace = new MadeUpTrace(4).to(0.0).to(45.0).to(55.0).to(45.0).to(45.0, 10.0);
    passes(judge(limits, STEPS, trace));
    noResult(judge(limits, STEPS, trace.to(55.0)), "1 more step of these sizes");
  }

  @Test
  void furtherLosses() throws FileMistakes {
    MadeUpTrace trace =
        new MadeUpTrace(5)
            .rests((setpoint, side) -> Math.max(0.0, setpoint))
            .to(0.0)
            .to(50.0)
            .to(LOST_PERCENT, 20.0)
            .to(50.0, 14.0);
    String limits = "hunting_peak_to_peak_pct = 0.5";
    String hold = "\n[[test]]\ntest = \"hunting\"\npoints_pct = [50]\nhold_s = 20";
    passes(judge(limits, LOSS + hold, trace.to(0.0).to(50.0, 50.0)));
    trace.to(LOST_PERCENT, 20.0);
    noResult(judge(limits, LOSS + hold, trace), "1 more loss of the signal", "repeat the test");
  }

  /** Each staircase ends when the unit has moved, here by its backlash. */
  private static MadeUpTrace stairs(int cycles) {
    return stairs(new MadeUpTrace(6).to(0.0), 50.0, cycles, 3);
  }

  private static MadeUpTrace stairs(MadeUpTrace trace, double place, int cycles, int probes) {
    trace.rests((setpoint, side) -> setpoint);
    for (int cycle = 0; cycle < cycles; cycle++) {
      for (int way = 1; way >= -1; way -= 2) {
        trace.rests((setpoint, side) -> setpoint).to(place - 10.0 * way).to(place);
        int from = way;
        for (int probe = 1; probe <= probes; probe++) {
          boolean moves = probe == probes;
          trace.rests((setpoint, side) -> moves ? place - 0.25 * probes * from : place);
          trace.to(place - 0.25 * probe * way, 6.0);
        }
      }
    }
    return trace.rests((setpoint, side) -> setpoint).to(0.0);
  }

  @Test
  void furtherStairs() throws FileMistakes {
    String limits = "dead_band_pct = 2";
    passes(judge(limits, STAIRS, stairs(2)));
    noResult(judge(limits, STAIRS, stairs(3)), "2 more staircases", "raise its cycles");
  }

  @Test
  void stairsAtAnotherPlace() throws FileMistakes {
    String limits = "dead_band_pct = 2";
    MadeUpTrace elsewhere = stairs(stairs(new MadeUpTrace(6).to(0.0), 50.0, 2, 3), 25.0, 1, 3);
    noResult(judge(limits, STAIRS, elsewhere), "2 more staircases", "at_pct");
    MadeUpTrace sound = stairs(new MadeUpTrace(6).to(0.0), 50.0, 2, 3);
    // Two settings of a person who comes near by hand are no staircase.
    passes(judge(limits, STAIRS, sound.to(20.0).to(20.5, 8.0).to(0.0)));
  }

  /** A unit that sticks on a staircase which no test asked for is too far from its setpoint. */
  @Test
  void stairsThatNoTestIsOf() throws FileMistakes {
    MadeUpTrace sound = stairs(travel(6), 25.0, 1, 3);
    passes(judge("travel_error_pct = 1", TRAVEL, sound));
    MadeUpTrace sticks = stairs(travel(6), 25.0, 1, 12);
    noResult(judge("travel_error_pct = 1", TRAVEL, sticks), "moving setpoint");
  }

  private static final String TRAVEL =
      "[[test]]\ntest = \"travel error\"\npoints_pct = [0, 50, 100]\ncycles = 1";

  private static MadeUpTrace travel(long seed) {
    return new MadeUpTrace(seed).to(0.0).cycle(0.0, 50.0, 100.0);
  }

  @Test
  void aRampThatNobodyAskedFor() throws FileMistakes {
    String limits = "travel_error_pct = 1";
    passes(judge(limits, TRAVEL, travel(8).ramp(100.0, 1.0, at -> Math.max(0.0, at - 0.6))));
    MadeUpTrace sticks = travel(8).ramp(100.0, 1.0, at -> 6.0 * Math.floor(at / 6.0));
    noResult(judge(limits, TRAVEL, sticks), "moving setpoint", "add the test");
    MadeUpTrace slow = travel(8).ramp(100.0, 5.0, at -> at / 4.0);
    noResult(judge(limits, TRAVEL, slow), "moving setpoint");
    MadeUpTrace before = new MadeUpTrace(8).to(0.0).ramp(60.0, 1.0, at -> 0.9 * at);
    noResult(judge(limits, TRAVEL, before.to(0.0).cycle(0.0, 50.0, 100.0)), "moving setpoint");
    MadeUpTrace jumps = travel(8).ramp(30.0, 1.0, at -> at).ramp(60.0, 2.0, at -> at);
    jumps.rows.get(jumps.rows.size() - 30).position -= 3.0;
    noResult(judge(limits, TRAVEL, jumps.to(0.0)), "impossible slew");
    // One that was stepped on before it could rest is where it can be.
    passes(judge(limits, TRAVEL, travel(8).to(30.0, 5.0).to(60.0, 5.0).to(0.0)));
  }

  @Test
  void furtherRamps() throws FileMistakes {
    String ramp = "[[test]]\ntest = \"ramp\"\nfrom_pct = 0\nto_pct = 100\nstroke_times = 7";
    String limits = "ramp_residual_pct = 2";
    MadeUpTrace once = new MadeUpTrace(9).to(0.0).to(100.0).to(0.0);
    once.ramp(100.0, 1.0, at -> at - 0.3).to(100.0).ramp(0.0, 1.0, at -> at + 0.3).to(0.0);
    passes(judge(limits, ramp, once));
    noResult(judge(limits, ramp, once.ramp(90.0, 1.0, at -> at - 0.3)), "1 more ramp than");
  }

  /** A step of 20 % that comes back by more than the limit says. */
  @Test
  void stepsOfOtherSizes() throws FileMistakes {
    String limits = "step_overshoot_pct = 0.5";
    MadeUpTrace trace = new MadeUpTrace(4).to(0.0).to(45.0).to(55.0).to(45.0).to(45.0, 10.0);
    passes(judge(limits, STEPS, trace.to(65.0).to(45.0)));
    trace.to(65.0, 3.2);
    for (int i = 0; i < 10; i++) {
      trace.add(65.0 + 2.0 * Math.sin(Math.PI * i / 10.0));
    }
    noResult(judge(limits, STEPS, trace.to(65.0, 6.0)), "from 45 to 65 %", "sizes_pct");
  }

  @Test
  void strokesThatAreNotWhole() throws FileMistakes {
    String limits =
        "stroke_time_opening_s = { min = 13.5, max = 16.5 }\n"
            + "stroke_time_closing_s = { min = 13.5, max = 16.5 }";
    passes(judge(limits, STROKE + 1, strokes(15.0).to(1.0).to(99.0).to(1.0)));
    for (double seconds : new double[] {11.0, 30.0}) {
      MadeUpTrace nearly = strokes(15.0).to(1.0).stroke(seconds).to(99.0);
      noResult(judge(limits, STROKE + 1, nearly), "a move from 1 to 99 %");
      MadeUpTrace part = strokes(15.0).to(20.0).stroke(seconds).to(75.0);
      noResult(judge(limits, STROKE + 1, part), "a move from 20 to 75 %");
    }
    MadeUpTrace quarter = strokes(15.0).to(20.0).stroke(30.0).to(45.0);
    noResult(judge(limits, STROKE + 1, quarter), "a move from 20 to 45 %");
    passes(judge(limits, STROKE + 1, strokes(15.0).to(20.0).to(45.0).to(5.0)));
  }

  /** Written only where it changes: each holds until the next. */
  @Test
  void setpointsThatStandWhereTheyChange() throws FileMistakes {
    List<String> lines = travel(8).lines();
    List<String> sparse = new ArrayList<>();
    String last = "";
    for (String line : lines) {
      String[] cells = line.split(",", -1);
      sparse.add(cells[0] + "," + (cells[1].equals(last) ? "" : cells[1]) + "," + cells[2]);
      last = cells[1];
    }
    Foreign foreign = new Foreign(folder).logged().limits("travel_error_pct = 1").tests(TRAVEL);
    JudgedRun run = foreign.judge(sparse);
    passes(run);
    assertThat(run.sentences()).anyMatch(f -> f.contains("only where it changes"));
    // One that is missing here and there isn't so written: it is damage, and no reversed action.
    for (int i = 2; i < lines.size(); i++) {
      String[] cells = lines.get(i).split(",", -1);
      sparse.set(i, cells[0] + "," + (i % 3 == 0 ? cells[1] : "") + "," + cells[2]);
    }
    noResult(foreign.judge(sparse), "the setpoint is missing");
  }

  /** Minutes and hours are times like others; a cell that says NaN is called that. */
  @Test
  void timesInMinutes() throws FileMistakes {
    List<String> lines = travel(8).lines();
    List<String> minutes = new ArrayList<>(lines);
    minutes.set(0, lines.get(0).replace("[s]", "[min]"));
    for (int i = 1; i < lines.size(); i++) {
      String[] cells = lines.get(i).split(",", -1);
      double at = Double.parseDouble(cells[0]) / 60.0;
      String position = i == 30 ? "NaN" : cells[2];
      minutes.set(i, String.format(Locale.ROOT, "%.7f,%s,%s", at, cells[1], position));
    }
    Foreign foreign = new Foreign(folder).logged().limits("travel_error_pct = 1").tests(TRAVEL);
    JudgedRun run = foreign.judge(minutes);
    passes(run);
    assertThat(run.sentences())
        .contains(
            "Not a number (NaN), in column \"position [%]\": line 31; nothing was read there.")
        .noneMatch(f -> f.startsWith("Empty cells"));
  }

  /** 20.9 mA ask for no more than 100 %, and 0 mA for what was ordered for the loss. */
  @Test
  void signalsBeyondTheEnds() throws FileMistakes {
    String limits = "travel_error_pct = 1";
    MadeUpTrace over = travel(8).rests((setpoint, side) -> Math.min(100.0, setpoint));
    passes(judge(limits, TRAVEL, over.to(105.625).to(0.0)));
    for (String action : List.of("close", "open", "stay")) {
      double end = action.equals("open") ? 100.0 : action.equals("close") ? 0.0 : 50.0;
      MadeUpTrace lost = travel(8).to(50.0).rests((setpoint, side) -> end).to(-25.0, 20.0);
      lost.rests((setpoint, side) -> setpoint).to(50.0, 14.0).to(0.0);
      Foreign foreign = new Foreign(folder).logged().limits(limits).tests(TRAVEL);
      passes(foreign.unit("action = \"close\"", "action = \"" + action + "\"").judge(lost.lines()));
      Foreign other = new Foreign(folder).logged().limits(limits).tests(TRAVEL);
      String wrong = action.equals("open") ? "close" : "open";
      JudgedRun run =
          other.unit("action = \"close\"", "action = \"" + wrong + "\"").judge(lost.lines());
      assertThat(run.verdict()).as(run.reason()).isEqualTo(Word.FAIL);
    }
  }

  /** Goes to and fro by 0.9 %, with a period of 4 s. */
  private static MadeUpTrace hunt(MadeUpTrace trace, double at, int samples) {
    for (int i = 0; i < samples; i++) {
      trace.add(at + 0.45 * Math.sin(2.0 * Math.PI * i / 40.0));
    }
    return trace;
  }

  private static MadeUpTrace come(double setpoint) {
    return new MadeUpTrace(7).to(0.0).to(setpoint);
  }

  private static final String LIMIT = "hunting_peak_to_peak_pct = 0.5";
  private static final String HOLD = "[[test]]\ntest = \"hunting\"\npoints_pct = [50]\nhold_s = 30";

  @Test
  void soundHoldsPass() throws FileMistakes {
    passes(judge(LIMIT, HOLD, come(50.0).to(50.0, 30.0)));
    passes(judge(LIMIT, HOLD, come(25.0).to(25.0, 40.0).to(50.0, 100.0).to(0.0).to(0.0, 40.0)));
    // One that is slower than it should be comes late, but one way.
    passes(judge(LIMIT, HOLD, new MadeUpTrace(7).stroke(22.0).to(0.0).to(50.0, 60.0)));
  }

  @Test
  void huntingBesideTheHold() throws FileMistakes {
    MadeUpTrace before = hunt(come(50.0), 49.95, 400).to(50.0, 40.0);
    noResult(judge(LIMIT, HOLD, before), "at a setpoint of 50.0 %, which no hold", "make hold_s");
    MadeUpTrace unasked = hunt(come(25.0), 24.95, 400).to(25.0, 5.0).to(50.0, 45.0);
    noResult(judge(LIMIT, HOLD, unasked), "at a setpoint of 25.0 %, which no hold");
    MadeUpTrace second = come(50.0).to(50.0, 40.0).to(0.0).to(50.0);
    noResult(judge(LIMIT, HOLD, hunt(second, 49.95, 400).to(50.0, 5.0)), "which no hold");
    MadeUpTrace asked = hunt(come(50.0).to(50.0, 10.0), 49.95, 350);
    assertThat(judge(LIMIT, HOLD, asked).verdict()).isEqualTo(Word.FAIL);
  }

  @Test
  void aPositionThatStopped() throws FileMistakes {
    MadeUpTrace trace = come(50.0).to(50.0, 40.0);
    List<MadeUpTrace.Row> rows = trace.rows;
    for (MadeUpTrace.Row row : rows.subList(rows.size() - 320, rows.size() - 20)) {
      row.position = 49.95;
    }
    noResult(judge(LIMIT, HOLD, trace), "did not change by a digit", "the input stopped");
  }

  /** With a period of 1 s the swing comes back to the same place whenever the input renews. */
  @Test
  void anInputThatRenewsTooSeldom() throws FileMistakes {
    MadeUpTrace trace = come(50.0).to(50.0, 40.0);
    for (int i = 0; i < trace.rows.size(); i++) {
      trace.rows.get(i).position = trace.rows.get(i / 10 * 10).position;
    }
    noResult(judge(LIMIT, HOLD, trace), "sampling insufficient: the input renews only every 1.0 s");
  }
}
