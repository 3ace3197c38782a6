package org.benchstroke.acceptance;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import java.util.function.Predicate;
import org.benchstroke.acceptance.FaultyLinks.Fault;
import org.benchstroke.bench.MeasureKind;
import org.benchstroke.model.SensorParameters;
import org.benchstroke.model.TransmitterParameters;
import org.benchstroke.record.Entry;
import org.benchstroke.record.Event;
import org.benchstroke.record.RunRecord;
import org.benchstroke.run.Progress;
import org.benchstroke.run.RunEnded;
import org.benchstroke.run.Spectator;
import org.benchstroke.simulator.BuiltInBench;
import org.benchstroke.simulator.Simulation;
import org.benchstroke.transport.Endpoint;
import org.benchstroke.verdict.JudgedRun;
import org.benchstroke.verdict.Judgement;
import org.benchstroke.verdict.Measure;
import org.benchstroke.verdict.Word;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** A link that fails never makes a wrong verdict: what it spoiled is named, void or done again. */
class LinkFaultTest {
  private static final long MILLI = 1_000_000L;
  private static final Endpoint MODBUS = BuiltInBench.MODBUS;
  private static final String STROKE = "stroke time";

  @Test
  void aGapInAStrokeVoidsTheTestAndItIsRunAgain() {
    VirtualBench bench = VirtualBench.with("healthy-b");
    InStroke gap = InStroke.gap(1);
    RunRecord record = bench.weather(gap).watchedBy(gap).run();

    List<Event> story = story(record);
    assertThat(story)
        .satisfiesExactly(
            e -> assertThat(e).isEqualTo(new Event.TestBegan(1, STROKE, 1)),
            e ->
                assertThat(e)
                    .isInstanceOfSatisfying(
                        Event.Faulted.class, f -> assertThat(f.fault()).isEqualTo("gap")),
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
    VirtualBench bench = VirtualBench.with("healthy-b");
    InStroke gap = InStroke.gap(1);
    RunRecord record = bench.weather(gap).watchedBy(gap).run();
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
    VirtualBench bench = VirtualBench.with("healthy-b");
    InStroke gap = InStroke.gap(99);
    JudgedRun run = VirtualBench.judge(bench.weather(gap).watchedBy(gap).run());

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
    VirtualBench bench = VirtualBench.with("healthy-b");
    InStroke frozen = InStroke.frozen(30 + samples);
    JudgedRun run = VirtualBench.judge(bench.weather(frozen).watchedBy(frozen).run());

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
            .filter(j -> j.measure().place().startsWith("100 %"))
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
      RandomFaults faults = new RandomFaults(seed);
      VirtualBench bench = VirtualBench.with(simulation).weather(faults);
      TruthAtRest truth = new TruthAtRest(bench);
      JudgedRun run = bench.watchedBy(truth).judge();
      hit += faults.made > 0 ? 1 : 0;
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
    Simulation shifted = VirtualBench.simulation("zero-shift");
    for (long seed = 1; seed <= 30; seed++) {
      JudgedRun run =
          VirtualBench.with(shifted.withSeed(seed)).weather(new RandomFaults(seed)).judge();
      assertThat(run.passed()).as("seed %d", seed).isFalse();
      assertThat(run.verdict()).as("seed %d", seed).isIn(Word.FAIL, Word.NO_RESULT);
    }
  }

  private static void assertSameFigures(long seed, JudgedRun clean, JudgedRun run) {
    assertThat(run.judgements()).hasSameSizeAs(clean.judgements());
    for (int i = 0; i < run.judgements().size(); i++) {
      Measure found = run.judgements().get(i).measure();
      Measure wanted = clean.judgements().get(i).measure();
      assertThat(found.value().isPresent()).isEqualTo(wanted.value().isPresent());
      if (found.value().isEmpty()) {
        continue;
      }
      assertThat(Math.abs(size(found) - size(wanted)))
          .as("seed %d: %s %s", seed, found.kind(), found.place())
          .isLessThanOrEqualTo(allowed(found));
    }
  }

  /**
   * How far a figure of a second run may be from that of the first. A sound unit rests anywhere
   * within ±0.1 % of its setpoint when it is approached anew, so two of its errors differ by 0.2 %
   * at most; the comparison with the truth is the sharp one. A late reply widens the interval of
   * its sample: a time is then as sure as it says.
   */
  private static double allowed(Measure measure) {
    return switch (measure.kind()) {
      case STROKE_TIME_OPENING, STROKE_TIME_CLOSING, STROKE_ASYMMETRY ->
          0.1 + measure.budget().orElseThrow().expand().half();
      default -> 0.2;
    };
  }

  /** The sign of a largest deviation only says which of two alike it is. */
  private static double size(Measure measure) {
    double value = measure.value().orElseThrow();
    return switch (measure.kind()) {
      case HYSTERESIS_PLUS_DEAD_BAND, LINEARITY_INDEPENDENT, LINEARITY_TERMINAL -> Math.abs(value);
      default -> value;
    };
  }

  private static void assertTrueErrors(long seed, JudgedRun run, TruthAtRest truth) {
    for (Judgement judgement : run.judgements()) {
      Measure measure = judgement.measure();
      if (measure.kind() == MeasureKind.TRAVEL_ERROR) {
        assertThat(Math.abs(measure.value().orElseThrow() - truth.error(measure)))
            .as("seed %d: %s", seed, measure.place())
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
    var t = s.parameters().transmitter();
    var transmitter =
        new TransmitterParameters(
            t.range(),
            t.lagSeconds(),
            t.bits(),
            t.lowestMilliamps(),
            t.highestMilliamps(),
            zeroPercent,
            0.0);
    return new Simulation(
        s.name(),
        s.shows(),
        s.unitTypeFile(),
        s.unitType(),
        s.seed(),
        s.angleReference(),
        s.parameters().withSensor(sensor).withTransmitter(transmitter));
  }

  /** Spoils position requests of the first stroke of the stroke time test's attempts. */
  private static final class InStroke implements Spectator, FaultyLinks.Weather {
    private final int attempts;
    private final int from;
    private final int to;
    private final boolean holds;
    private boolean attempting;
    private boolean moving;
    private int requests;
    private byte[] last = {};

    private InStroke(int attempts, int from, int to, boolean holds) {
      this.attempts = attempts;
      this.from = from;
      this.to = to;
      this.holds = holds;
    }

    /** The switches answer late once, so that the next position comes late. */
    static InStroke gap(int attempts) {
      return new InStroke(attempts, 30, 30, false);
    }

    /** The position keeps its value from the 30th request of the stroke on. */
    static InStroke frozen(int to) {
      return new InStroke(99, 30, to, true);
    }

    @Override
    public void happened(Entry entry) {
      if (entry.event() instanceof Event.TestBegan began) {
        attempting = began.test().equals(STROKE) && began.attempt() <= attempts;
        moving = false;
      } else if (entry.event() instanceof Event.Commanded c) {
        moving = attempting && c.setpointPercent() == 100.0;
        requests = 0;
      }
    }

    @Override
    public void progressed(Progress progress) {
      // Events tell enough.
    }

    @Override
    public Fault at(Endpoint endpoint, long nanos, byte[] request) {
      if (!moving || !endpoint.equals(MODBUS)) {
        return new Fault.None();
      }
      boolean position = FaultyLinks.asksPosition(request);
      requests += position ? 1 : 0;
      boolean now = requests >= from && requests <= to;
      if (holds && position) {
        return now ? new Fault.Changed(this::held) : new Fault.Changed(this::keep);
      }
      return now && !position && !holds ? new Fault.Late(400 * MILLI) : new Fault.None();
    }

    private byte[] keep(byte[] reply) {
      last = reply.clone();
      return reply;
    }

    /** The reply of this request with the value of an earlier one. */
    private byte[] held(byte[] reply) {
      byte[] held = last.clone();
      System.arraycopy(reply, 0, held, 0, 2);
      return held;
    }
  }

  /** Faults at random instants on all the links. */
  private static final class RandomFaults implements FaultyLinks.Weather {
    private static final double SHARE = 1.0 / 2500.0;
    private final Random random;
    private int made;

    RandomFaults(long seed) {
      this.random = new Random(seed);
    }

    @Override
    public Fault at(Endpoint endpoint, long nanos, byte[] request) {
      if (random.nextDouble() >= SHARE) {
        return new Fault.None();
      }
      made++;
      return switch (random.nextInt(6)) {
        case 0, 1 -> new Fault.Late(MILLI * (20 + random.nextInt(900)));
        case 2 -> new Fault.Lost();
        case 3 -> new Fault.Broken();
        case 4 -> new Fault.Changed(this::garbage);
        default -> new Fault.Changed(LinkFaultTest::otherNumber);
      };
    }

    private byte[] garbage(byte[] reply) {
      byte[] garbage = new byte[1 + random.nextInt(reply.length + 4)];
      random.nextBytes(garbage);
      return garbage;
    }
  }

  /** Another transaction number; of a text, another first letter. */
  private static byte[] otherNumber(byte[] reply) {
    byte[] other = Arrays.copyOf(reply, reply.length);
    other[0] ^= 0x5A;
    return other;
  }
}
