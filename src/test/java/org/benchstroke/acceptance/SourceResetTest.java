package org.benchstroke.acceptance;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.charset.StandardCharsets;
import org.benchstroke.judge.JudgedRun;
import org.benchstroke.judge.Word;
import org.benchstroke.record.Entry;
import org.benchstroke.record.Event;
import org.benchstroke.record.RunFault;
import org.benchstroke.run.Progress;
import org.benchstroke.run.Spectator;
import org.benchstroke.simulator.ByteSession;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** A source that loses its setting in mid run, on a bench that does not measure the loop. */
class SourceResetTest {
  private static final String EXERCISE = "[[test]]\ntest = \"exercise\"\nstrokes = 1\n\n";

  /** Talks to the source beside the run, once, or again in each attempt. */
  private static final class Meddler implements Spectator {
    private final ByteSession session;
    private final String test;
    private final String message;
    private final boolean always;
    private boolean within;
    private int samples;
    private boolean done;

    Meddler(VirtualBench bench, String test, String message, boolean always) {
      this.session = bench.unit().connect(VirtualBench.addressOf(bench.unit(), "source"));
      this.test = test;
      this.message = message;
      this.always = always;
    }

    @Override
    public void happened(Entry entry) {
      if (entry.event() instanceof Event.TestBegan began) {
        within = began.test().equals(test);
        samples = 0;
      }
      samples += entry.event() instanceof Event.Sampled s && s.channel().equals("position") ? 1 : 0;
      if (within && samples == 100 && (always || !done)) {
        done = true;
        samples++;
        session.feed((message + "\n").getBytes(StandardCharsets.US_ASCII));
      }
    }

    @Override
    public void progressed(Progress progress) {
      // Only what happens matters.
    }
  }

  private static VirtualBench bench(String test, String keys) {
    return VirtualBench.with("healthy-b")
        .benchText(SourceResetTest::withoutLoopMeter)
        .tests(
            (test.equals("exercise") ? "" : EXERCISE)
                + "[[test]]\ntest = \""
                + test
                + "\"\n"
                + keys.replace(';', '\n')
                + "\n")
        .unitType(t -> t.replaceAll("(?s)\\[limits].*", "") + "[limits]\ntravel_error_pct = 1.0\n");
  }

  private static String withoutLoopMeter(String text) {
    int from = text.lastIndexOf("[[instrument]]", text.indexOf("name = \"loop meter\""));
    return text.substring(0, from) + text.substring(text.indexOf("[[instrument]]", from + 5));
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "exercise | strokes = 1 | *RST",
        "travel error | points_pct = [0, 50, 100]; cycles = 1 | *RST",
        "travel error | points_pct = [0, 50, 100]; cycles = 1 | SOUR:CURR 0.0035",
        "travel error | points_pct = [0, 50, 100]; cycles = 1 | OUTP OFF",
        "step response | at_pct = 50; sizes_pct = [10] | *RST",
        "stroke time | repeats = 1 | *RST",
        "hunting | points_pct = [50]; hold_s = 60 | OUTP OFF",
        "dead band | at_pct = [50]; step_pct = 0.2; most_pct = 3; cycles = 2 | *RST",
        "ramp | from_pct = 20; to_pct = 80; stroke_times = 3 | *RST"
      })
  void theUnitIsNotBlamed(String test, String keys, String message) {
    VirtualBench once = bench(test, keys);
    JudgedRun run = once.watchedBy(new Meddler(once, test, message, false)).judge();
    if (!test.equals("ramp")) {
      assertThat(run.record().events(Event.Faulted.class))
          .anySatisfy(
              f -> {
                assertThat(f.fault()).isEqualTo(RunFault.SETTING_LOST);
                assertThat(f.detail()).startsWith("the source lost its setting: it says ");
              });
    }
    assertThat(run.verdict()).as(run.reason()).isNotEqualTo(Word.FAIL);
    assertThat(once.result().reason()).isEqualTo("all tests of the procedure are done");
  }

  /** Whatever the attempt: void to the end, and no word against the unit. */
  @ParameterizedTest
  @CsvSource({"*RST", "OUTP OFF", "SOUR:CURR 0.0035"})
  void aSourceThatDoesItAgainAndAgainVoidsTheRun(String message) {
    VirtualBench bench = bench("travel error", "points_pct = [0, 50, 100]; cycles = 1");
    JudgedRun run = bench.watchedBy(new Meddler(bench, "travel error", message, true)).judge();
    assertThat(bench.result().reason()).contains("the source lost its setting");
    assertThat(run.verdict()).isEqualTo(Word.NO_RESULT);
    assertThat(run.passed()).isFalse();
  }
}
