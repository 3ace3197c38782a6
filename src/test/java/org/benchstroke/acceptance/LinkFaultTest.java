package org.benchstroke.acceptance;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.function.Predicate;
import org.benchstroke.core.model.SensorParameters;
import org.benchstroke.judge.JudgedRun;
import org.benchstroke.judge.Judgement;
import org.benchstroke.judge.Measure;
import org.benchstroke.judge.Word;
import org.benchstroke.record.Entry;
import org.benchstroke.record.Event;
import org.benchstroke.record.RunFault;
import org.benchstroke.record.RunRecord;
import org.benchstroke.run.RunEnded;
import org.benchstroke.simulator.Simulation;
import org.benchstroke.unit.MeasureKind;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** A link that fails never makes a wrong verdict: what it spoiled is named, void or done again. */
class LinkFaultTest {
  private static final String STROKE = "stroke time";

  /** The sample period of the built-in bench. */
  private static final double SAMPLE_SECONDS = 0.1;

  /** Faults at random instants on all the links. */
  private static final String STORM =
      random("late", "late_ms = 50")
          + random("late", "late_ms = 250")
          + random("late", "late_ms = 450")
          + random("late", "late_ms = 900")
          + random("slow bytes", "byte_ms = 40")
          + random("one behind", "")
          + random("drop", "")
          + random("cut", "")
          + random("garbage", "")
          + random("reset", "")
          + random("half open", "");

  @Test
  void aGapInAStrokeVoidsTheTestAndItIsRunAgain() {
    RunRecord record = withGaps(1).run();

    List<Event> story = story(record);
    assertThat(story)
        .satisfiesExactly(
            e -> assertThat(e).isEqualTo(new Event.TestBegan(1, STROKE, 1)),
            e ->
                assertThat(e)
                    .isInstanceOfSatisfying(
                        Event.Faulted.class, f -> assertThat(f.fault()).isEqualTo(RunFault.GAP)),
            e ->
                assertThat(e)
                    .isInstanceOfSatisfying(
                        Event.TestEnded.class, f -> assertThat(f.outcome()).isEqualTo("void")),
            e ->
                assertThat(e)
                    .isInstanceOfSatisfying(
                        Event.MadeSafe.class, f -> assertThat(f.confirmed()).isTrue()),
            e -> assertThat(e).isEqualTo(new Event.TestBegan(1, STROKE, 2)),
            e -> assertThat(e).isEqualTo(new Event.TestEnded(1, STROKE, 2, "complete", "")));
    assertThat(longestPauseSeconds(attempt(record, 1))).isBetween(0.4, 0.6);
    assertThat(longestPauseSeconds(attempt(record, 2))).isLessThan(0.3);
    assertThat(VirtualBench.judge(record).passed()).isTrue();
  }

  /** What the void attempt measured is never used, not even where nothing else is there. */
  @Test
  void aVoidAttemptIsNotUsed() {
    RunRecord record = withGaps(1).run();
    List<Entry> second = attempt(record, 2);

    JudgedRun run = VirtualBench.judge(without(record, second::contains));

    assertThat(run.passed()).isFalse();
    assertThat(run.reason()).contains(STROKE).contains("void").contains("gap");
    assertThat(measure(run, MeasureKind.STROKE_TIME_OPENING).value()).isEmpty();
  }

  /** Even in a test that the record calls complete. */
  @Test
  void whatSpansAGapIsNotInterpolated() {
    RunRecord record = VirtualBench.with("healthy-b").run();
    List<Entry> positions = attempt(record, 1).stream().filter(LinkFaultTest::isPosition).toList();
    // The middle of the opening stroke, far from 5 and 95 %.
    List<Entry> middle = positions.stream().dropWhile(e -> percent(e) < 50.0).limit(4).toList();

    JudgedRun run = VirtualBench.judge(without(record, middle::contains));

    assertThat(middle).hasSize(4);
    assertThat(measure(run, MeasureKind.STROKE_TIME_OPENING).value()).isEmpty();
    assertThat(measure(run, MeasureKind.STROKE_TIME_OPENING).note()).contains("gap");
    assertThat(measure(run, MeasureKind.STROKE_TIME_CLOSING).value()).isPresent();
    assertThat(run.passed()).isFalse();
  }

  @Test
  void gapsThatComeAgainEndTheRun() {
    VirtualBench bench = withGaps(3);
    JudgedRun run = bench.judge();

    assertThat(bench.result().how()).isEqualTo(RunEnded.How.FAULT);
    assertThat(bench.result().reason()).contains("as often as allowed").contains("gap");
    assertThat(bench.result().safe().confirmed()).isTrue();
    assertThat(
            run.record()
                .events(Event.TestEnded.class)
                .filter(e -> e.test().equals(STROKE))
                .map(Event.TestEnded::outcome))
        .containsExactly("void", "void", "void");
    assertThat(run.passed()).isFalse();
    assertThat(measure(run, MeasureKind.STROKE_TIME_OPENING).value()).isEmpty();
  }

  /** A few samples that stand still and then jump, or a value that stays where it was. */
  @ParameterizedTest
  @ValueSource(ints = {3, 5, 10, 20, 40, 100_000})
  void aFrozenPositionNeverPasses(int samples) {
    double from = Scripted.middleOfStroke(VirtualBench.with("healthy-b").run(), 1);
    String frozen =
        Scripted.fault("position input", "freeze", Scripted.during(from, samples * SAMPLE_SECONDS));
    VirtualBench bench = VirtualBench.with(VirtualBench.simulation("healthy-b", frozen));
    JudgedRun run = bench.judge();

    assertThat(bench.result().how()).isEqualTo(RunEnded.How.FAULT);
    assertThat(bench.result().reason()).containsAnyOf("impossible slew", "frozen value");
    assertThat(bench.result().safe().confirmed()).isTrue();
    assertThat(run.passed()).isFalse();
    assertThat(measure(run, MeasureKind.STROKE_TIME_OPENING).value()).isEmpty();
  }

  @Test
  void aSaturatedPositionHasNoResult() {
    // A position input that ends at 20.5 mA, and a unit whose feedback would go beyond.
    Simulation shifted = VirtualBench.simulation("zero-shift");
    var sensor = shifted.parameters().sensor();
    Simulation clipped =
        changed(shifted, new SensorParameters(0.0, 0.0, 0.0, sensor.noisePercent()), 4.0);
    VirtualBench bench = VirtualBench.with(clipped).benchText(LinkFaultTest::endsAt20Point5);
    JudgedRun run = bench.judge();

    assertThat(run.record().events(Event.Sampled.class).map(Event.Sampled::quality))
        .contains("saturated");
    Judgement top =
        run.judgements().stream()
            .filter(j -> j.measure().kind() == MeasureKind.TRAVEL_ERROR)
            .filter(j -> j.measure().place().words().startsWith("100 %"))
            .findFirst()
            .orElseThrow();
    assertThat(top.measure().value()).isEmpty();
    assertThat(top.word()).contains(Word.NO_RESULT);
    assertThat(top.measure().note()).contains("saturated");
    assertThat(run.passed()).isFalse();
  }

  @ParameterizedTest
  @ValueSource(doubles = {12.0, 47.0, 81.0})
  void aDeadSpotEndsTheRun(double from) {
    Simulation healthy = VirtualBench.simulation("healthy-b");
    VirtualBench bench =
        VirtualBench.with(
            changed(healthy, healthy.parameters().sensor().withDeadSpot(from, from + 3.0), 0.0));
    JudgedRun run = bench.judge();

    assertThat(bench.result().how()).isEqualTo(RunEnded.How.FAULT);
    assertThat(bench.result().reason()).contains("impossible slew").contains("sensor");
    assertThat(bench.result().safe().confirmed()).isTrue();
    assertThat(run.passed()).isFalse();
  }

  /** Whatever a link does, a figure is the one of a sound link or is not there. */
  @Test
  void randomFaultsNeverMakeAWrongVerdict() {
    Simulation healthy = VirtualBench.simulation("healthy-b");
    int passed = 0;
    int hit = 0;
    for (long seed = 1; seed <= 100; seed++) {
      Simulation simulation = healthy.withSeed(seed);
      VirtualBench bench =
          VirtualBench.with(VirtualBench.simulation("healthy-b", STORM).withSeed(seed));
      TruthAtRest truth = new TruthAtRest(bench);
      JudgedRun run = bench.watchedBy(truth).judge();
      hit += run.record().events(Event.Faulted.class).findAny().isPresent() ? 1 : 0;
      if (run.passed()) {
        passed++;
        assertSameFigures(seed, VirtualBench.with(simulation).judge(), run);
        assertTrueErrors(seed, run, truth);
      } else {
        assertThat(run.verdict()).as("seed %d: %s", seed, run.reason()).isEqualTo(Word.NO_RESULT);
        assertThat(run.complete()).as("seed %d: %s", seed, run.reason()).isFalse();
      }
    }
    // Both ways out were taken, or nothing was tested.
    assertThat(hit).isGreaterThan(60);
    assertThat(passed).isBetween(10, 90);
  }

  @Test
  void randomFaultsNeverLetAFaultyUnitPass() {
    Simulation shifted = VirtualBench.simulation("zero-shift", STORM);
    for (long seed = 1; seed <= 30; seed++) {
      JudgedRun run = VirtualBench.with(shifted.withSeed(seed)).judge();
      assertThat(run.passed()).as("seed %d", seed).isFalse();
      assertThat(run.verdict()).as("seed %d", seed).isIn(Word.FAIL, Word.NO_RESULT);
    }
  }

  private static void assertSameFigures(long seed, JudgedRun clean, JudgedRun run) {
    List<Measure> all = asked(run);
    assertThat(all).hasSameSizeAs(asked(clean));
    for (int i = 0; i < all.size(); i++) {
      Measure found = all.get(i);
      Measure wanted = asked(clean).get(i);
      assertThat(found.value().isPresent()).isEqualTo(wanted.value().isPresent());
      if (found.value().isEmpty()) {
        continue;
      }
      assertThat(Math.abs(size(found) - size(wanted)))
          .as("seed %d: %s %s", seed, found.kind(), found.place().words())
          .isLessThanOrEqualTo(allowed(found));
    }
  }

  /** Rests that no test asked for count only where no link failed beside them. */
  private static List<Measure> asked(JudgedRun run) {
    return run.judgements().stream()
        .map(Judgement::measure)
        .filter(m -> !m.place().words().contains("another rest"))
        .toList();
  }

  /**
   * How far a figure of a second run may be from that of the first. A sound unit rests anywhere
   * within ±0.1 % of its setpoint when it is approached anew, so two of its errors differ by 0.2 %
   * at most; the comparison with the truth is the sharp one. A late reply widens the interval of
   * its sample: a time, and the noise of what moves, is then as sure as it says.
   */
  private static double allowed(Measure measure) {
    return switch (measure.kind()) {
      case STROKE_TIME_OPENING, STROKE_TIME_CLOSING, STROKE_ASYMMETRY, FEEDBACK_NOISE ->
          0.1 + measure.budget().orElseThrow().expand().half();
      default -> 0.2;
    };
  }

  /** The sign of a largest deviation only says which of two alike it is. */
  private static double size(Measure measure) {
    double value = measure.value().orElseThrow();
    return switch (measure.kind()) {
      case HYSTERESIS_PLUS_DEAD_BAND,
          HYSTERESIS_PLUS_DEAD_BAND_MEANS,
          LINEARITY_INDEPENDENT,
          LINEARITY_TERMINAL ->
          Math.abs(value);
      default -> value;
    };
  }

  private static void assertTrueErrors(long seed, JudgedRun run, TruthAtRest truth) {
    for (Measure measure : asked(run)) {
      if (measure.kind() == MeasureKind.TRAVEL_ERROR) {
        assertThat(Math.abs(measure.value().orElseThrow() - truth.error(measure)))
            .as("seed %d: %s", seed, measure.place().words())
            .isLessThanOrEqualTo(1.5 * measure.budget().orElseThrow().expand().half())
            .isLessThanOrEqualTo(0.1);
      }
    }
  }

  private static Measure measure(JudgedRun run, MeasureKind kind) {
    return run.judgements().stream()
        .map(Judgement::measure)
        .filter(m -> m.kind() == kind)
        .findFirst()
        .orElseThrow();
  }

  /** From the beginning of the stroke time test to its end: all but samples and their like. */
  private static List<Event> story(RunRecord record) {
    List<Event> story = new ArrayList<>();
    boolean inside = false;
    for (Entry entry : record.entries()) {
      Event event = entry.event();
      inside |= event instanceof Event.TestBegan began && began.test().equals(STROKE);
      boolean told =
          event instanceof Event.TestBegan
              || event instanceof Event.TestEnded
              || event instanceof Event.Faulted
              || event instanceof Event.MadeSafe;
      if (inside && told) {
        story.add(event);
      }
      if (event instanceof Event.TestEnded ended
          && ended.test().equals(STROKE)
          && ended.outcome().equals("complete")) {
        inside = false;
      }
    }
    return story;
  }

  /** The lines of an attempt at the stroke time test, with its first and last. */
  private static List<Entry> attempt(RunRecord record, int number) {
    List<Entry> entries = new ArrayList<>();
    boolean inside = false;
    for (Entry entry : record.entries()) {
      if (entry.event() instanceof Event.TestBegan began) {
        inside = began.test().equals(STROKE) && began.attempt() == number;
      }
      if (inside) {
        entries.add(entry);
      }
      inside &= !(entry.event() instanceof Event.TestEnded);
    }
    assertThat(entries).isNotEmpty();
    return entries;
  }

  private static double longestPauseSeconds(List<Entry> entries) {
    long longest = 0;
    long before = Long.MAX_VALUE;
    for (Entry entry : entries) {
      if (entry.event() instanceof Event.Sampled s && s.channel().equals("position")) {
        long stamp = s.askedNanos() + (s.answeredNanos() - s.askedNanos()) / 2;
        longest = Math.max(longest, stamp - before);
        before = stamp;
      } else if (entry.event() instanceof Event.Commanded) {
        before = Long.MAX_VALUE;
      }
    }
    return longest / 1e9;
  }

  private static RunRecord without(RunRecord record, Predicate<Entry> left) {
    return new RunRecord(record.entries().stream().filter(left.negate()).toList(), record.flaws());
  }

  private static boolean isPosition(Entry entry) {
    return entry.event() instanceof Event.Sampled s && s.channel().equals("position");
  }

  private static double percent(Entry entry) {
    return ((Event.Sampled) entry.event()).value();
  }

  private static String endsAt20Point5(String text) {
    int position = text.indexOf("name = \"position input\"");
    int ends = text.indexOf("max_mA = 24", position);
    return text.substring(0, ends) + "max_mA = 20.5" + text.substring(ends + 11);
  }

  private static Simulation changed(Simulation s, SensorParameters sensor, double zeroPercent) {
    var transmitter = s.parameters().transmitter().withErrors(zeroPercent, 0.0);
    return s.withUnit(s.parameters().with(sensor).with(transmitter));
  }

  private static String random(String kind, String keys) {
    return Scripted.fault("all", kind, "probability = 0.00004\n" + keys);
  }

  /** A sound unit whose position comes late once in the opening stroke of so many attempts. */
  private static VirtualBench withGaps(int attempts) {
    String gaps = "";
    for (int attempt = 1; attempt <= attempts; attempt++) {
      RunRecord before = VirtualBench.with(VirtualBench.simulation("healthy-b", gaps)).run();
      double middle = Scripted.middleOfStroke(before, attempt);
      String late = "late_ms = 400\n" + Scripted.during(middle, 1.5 * SAMPLE_SECONDS);
      gaps += Scripted.fault("position input", "late", late);
    }
    return VirtualBench.with(VirtualBench.simulation("healthy-b", gaps));
  }
}
