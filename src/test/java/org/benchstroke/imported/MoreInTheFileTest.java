package org.benchstroke.imported;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.List;
import org.benchstroke.bench.toml.FileMistakes;
import org.benchstroke.verdict.JudgedRun;
import org.benchstroke.verdict.Word;
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
    MadeUpTrace trace = new MadeUpTrace(6).rests((setpoint, side) -> setpoint).to(0.0);
    for (int cycle = 0; cycle < cycles; cycle++) {
      for (int way = 1; way >= -1; way -= 2) {
        trace.rests((setpoint, side) -> setpoint).to(50.0 - 10.0 * way).to(50.0);
        int from = way;
        for (int probe = 1; probe <= 3; probe++) {
          boolean moves = probe == 3;
          trace.rests((setpoint, side) -> moves ? 50.0 - 0.75 * from : 50.0);
          trace.to(50.0 - 0.25 * probe * way, 6.0);
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
    noResult(judge(LIMIT, HOLD, trace), "kept all its digits", "the input stopped");
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
