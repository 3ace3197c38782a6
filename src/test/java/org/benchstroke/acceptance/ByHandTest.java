package org.benchstroke.acceptance;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.benchstroke.io.instrument.LimitSwitch;
import org.benchstroke.judge.JudgedRun;
import org.benchstroke.judge.Judgement;
import org.benchstroke.judge.Measure;
import org.benchstroke.judge.Truth;
import org.benchstroke.judge.Word;
import org.benchstroke.procedure.Caution;
import org.benchstroke.record.Event;
import org.benchstroke.run.Answer;
import org.benchstroke.run.DisplayQuestion;
import org.benchstroke.run.Operator;
import org.benchstroke.run.Question;
import org.benchstroke.run.RunEnded;
import org.benchstroke.unit.MeasureKind;
import org.junit.jupiter.api.Test;

/** A bench without any port: a person sets the source, reads the display and looks at the lamps. */
class ByHandTest {
  private static final Path BENCH = Path.of("demo-data/benches/by-hand.toml");
  private static final String TRAVEL =
      "\n[[test]]\ntest = \"travel error\"\npoints_pct = [0, 25, 50, 75, 100]\ncycles = 1\n";
  private static final String EXERCISE = "\n[[test]]\ntest = \"exercise\"\nstrokes = 1\n";

  private final List<String> requests = new ArrayList<>();
  private final List<DisplayQuestion> questions = new ArrayList<>();

  /** What a display of 0.1 % of that unit type can be held to; strokes can't be timed by eye. */
  private static String wideLimits(String unitType) {
    return unitType.replaceAll("(?s)\\[limits].*", "") + "[limits]\ntravel_error_pct = 1.5\n";
  }

  private VirtualBench bench(String simulation, String tests) {
    return VirtualBench.with(simulation, BENCH).tests(tests).unitType(ByHandTest::wideLimits);
  }

  @Test
  void aSoundUnitPassesByHandAloneAndTheReportSaysWhatWasNotSeen() {
    VirtualBench bench = bench("healthy-b", EXERCISE + TRAVEL);
    JudgedRun run = bench.askedBy(new Person(bench, 99)).judge();

    assertThat(bench.result().reason()).isEqualTo("all tests of the procedure are done");
    assertThat(run.verdict()).as(run.reason()).isEqualTo(Word.PASS);
    assertThat(run.passed()).isTrue();
    List<Measure> errors = of(run, MeasureKind.TRAVEL_ERROR);
    assertThat(errors).hasSize(8);
    assertThat(errors)
        .allSatisfy(
            e -> {
              assertThat(e.truth()).isEqualTo(Truth.FEEDBACK);
              assertThat(e.value().orElseThrow()).isCloseTo(0.0, within(0.25));
              assertThat(e.note()).contains("typed in");
              // ±0.05 % for the step and 0.03 % for the reader alone make 0.042 %.
              assertThat(e.budget().orElseThrow().combinedStandard()).isGreaterThan(0.06);
            });
    assertThat(run.sentences())
        .anyMatch(f -> f.startsWith("Position read by a person"))
        .anyMatch(f -> f.startsWith("Setpoint not proven: a person set"));
    assertThat(run.stemProven()).isFalse();
    assertThat(questions).filteredOn(q -> q.words().contains("switch")).hasSize(2);
    assertThat(run.record().events(Event.Sampled.class).map(Event.Sampled::raw))
        .allMatch(raw -> raw.startsWith("typed in by virtual: "));
    Event.MadeSafe safe = last(run);
    assertThat(safe.confirmed()).isTrue();
    assertThat(safe.detail())
        .startsWith("confirmed, a person says that the source is set to 4.000 mA");
  }

  @Test
  void faultsAreSeenByHandToo() {
    VirtualBench shifted = bench("zero-shift", EXERCISE + TRAVEL);
    JudgedRun zero = shifted.askedBy(new Person(shifted, 99)).judge();
    assertThat(zero.verdict()).isNotEqualTo(Word.PASS);
    System.err.println(
        of(zero, MeasureKind.TRAVEL_ERROR).stream().map(Measure::value).toList() + zero.reason());
    assertThat(zero.sentences()).anyMatch(f -> f.contains("the zero is shifted"));

    VirtualBench cam = bench("cam-set-short", EXERCISE + TRAVEL);
    JudgedRun cut = cam.askedBy(new Person(cam, 99)).judge();
    assertThat(cut.verdict()).isEqualTo(Word.FAIL);
    assertThat(cut.sentences()).anyMatch(f -> f.contains("open switch made"));

    VirtualBench reversed = bench("reversed-action", EXERCISE + TRAVEL);
    JudgedRun wrong = reversed.askedBy(new Person(reversed, 99)).judge();
    assertThat(wrong.verdict()).isEqualTo(Word.FAIL);
    assertThat(reversed.result().how()).isEqualTo(RunEnded.How.ACTION_REVERSED);
  }

  @Test
  void whatNeedsATraceIsNotDoneAndNeverPassed() {
    String stroke = "\n[[test]]\ntest = \"stroke time\"\nrepeats = 1\n";
    VirtualBench bench = bench("healthy-b", EXERCISE + stroke + TRAVEL);
    JudgedRun run = bench.askedBy(new Person(bench, 99)).judge();
    assertThat(run.verdict()).isEqualTo(Word.NO_RESULT);
    assertThat(run.reason())
        .contains("stroke time")
        .contains("not done")
        .contains("a person reads");
  }

  private static final String INSULATION =
      """

      [[test]]
      test = "recorded by hand"
      [[test.item]]
      name = "insulation resistance"
      unit = "MΩ"
      """;

  /** Done by a competent person under local rules: recorded, never judged. */
  @Test
  void aFigureByOtherMeansIsRecordedAndNotJudged() {
    VirtualBench bench = bench("healthy-b", EXERCISE + TRAVEL + INSULATION);
    JudgedRun run = bench.askedBy(new Person(bench, 99)).judge();
    assertThat(run.sentences())
        .contains(
            "Recorded by hand, not measured by this program and not judged: insulation resistance"
                + " 500 MΩ.");
    assertThat(run.orders()).noneMatch(o -> o.what().equals("insulation resistance"));
    assertThat(run.verdict()).isEqualTo(Word.PASS);

    JudgedRun nobody = VirtualBench.with("healthy-b").tests(EXERCISE + INSULATION).judge();
    assertThat(nobody.orders())
        .filteredOn(o -> o.what().equals("insulation resistance"))
        .singleElement()
        .satisfies(o -> assertThat(o.word()).isEqualTo(Word.NO_RESULT));
    assertThat(nobody.passed()).isFalse();
  }

  @Test
  void whoStopsIsStillAskedForTheSafeSignal() {
    VirtualBench bench = bench("healthy-b", EXERCISE + TRAVEL);
    JudgedRun run = bench.askedBy(new Person(bench, 9)).judge();
    assertThat(bench.result().how()).isEqualTo(RunEnded.How.STOPPED);
    assertThat(run.passed()).isFalse();
    assertThat(requests.get(requests.size() - 1)).isEqualTo("Set \"hand-held source\" to 4.000 mA");
    assertThat(last(run).confirmed()).isFalse();
    assertThat(last(run).detail()).contains("commanded, but not confirmed");
  }

  private static List<Measure> of(JudgedRun run, MeasureKind kind) {
    return run.judgements().stream().map(Judgement::measure).filter(m -> m.kind() == kind).toList();
  }

  private static Event.MadeSafe last(JudgedRun run) {
    return run.record().events(Event.MadeSafe.class).reduce((a, b) -> b).orElseThrow();
  }

  /** Does what is asked for, on the simulated unit; walks away after so many settings. */
  private final class Person implements Operator {
    private static final Pattern SETTING = Pattern.compile(" to ([\\d.]+) mA$");

    private final VirtualBench bench;
    private final int patience;

    Person(VirtualBench bench, int patience) {
      this.bench = bench;
      this.patience = patience;
    }

    @Override
    public Answer answer(Question question) {
      if (question instanceof Question.Task task) {
        return set(task.request());
      }
      if (question instanceof DisplayQuestion display) {
        OptionalDouble number = read(display);
        return number.isPresent() ? new Answer.Figure(number.getAsDouble()) : Answer.no();
      }
      Caution caution = question.warning().orElseThrow();
      if (bench.unit().switchedByHand()) {
        bench.unit().motorSupply(caution == Caution.MOTION);
      }
      return new Answer.Yes("yes");
    }

    private Answer set(String request) {
      requests.add(request);
      if (requests.size() > patience) {
        bench.stop().stop("the person went away");
        return Answer.no();
      }
      Matcher setting = SETTING.matcher(request);
      assertThat(setting.find()).as(request).isTrue();
      pass(5);
      bench.unit().sourceByHand(Double.parseDouble(setting.group(1)));
      return new Answer.Yes("yes");
    }

    private OptionalDouble read(DisplayQuestion question) {
      questions.add(question);
      pass(4);
      for (LimitSwitch each : LimitSwitch.values()) {
        if (question.what().equals(each.key() + " switch")) {
          return question.number(bench.unit().made(each) ? "1" : "0");
        }
      }
      if (question.what().equals("insulation resistance")) {
        return question.number("500");
      }
      double shown = Math.rint(bench.unit().truth().feedbackPercent() * 10.0) / 10.0;
      return question.number(Double.toString(shown));
    }

    private void pass(int seconds) {
      long until = bench.clock().nanos() + seconds * 1_000_000_000L;
      bench.clock().waitUntil(until);
      // No instrument has a port: nothing but the clock moves the unit on.
      bench.unit().advanceTo(until);
    }
  }
}
