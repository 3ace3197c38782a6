package org.benchstroke.acceptance;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.ConcurrentHashMap;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.benchstroke.acceptance.FaultyLinks.Fault;
import org.benchstroke.acceptance.FaultyRequest.Wire;
import org.benchstroke.io.instrument.Role;
import org.benchstroke.io.transport.Endpoint;
import org.benchstroke.judge.JudgedRun;
import org.benchstroke.judge.Word;
import org.benchstroke.record.Entry;
import org.benchstroke.record.Event;
import org.benchstroke.record.RunRecord;
import org.benchstroke.run.Progress;
import org.benchstroke.run.RunEnded;
import org.benchstroke.run.Spectator;
import org.benchstroke.simulator.Simulation;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;

/**
 * Each fault of a link, in each language, in each role, in the middle of a stroke and of a travel
 * test of a whole run. It is in the record by its own name; what it spoiled is void and done again
 * after the safe signal, or the run ends in a fault; and the verdict is the right one or none.
 */
class LinkFaultMatrixTest {
  private static final double SAFE_MILLIAMPS = 4.0;
  private static final String STROKE = "stroke time";
  private static final String TRAVEL = "travel error";

  /** As little as a fault in the middle of a stroke and on the way to a third point asks for. */
  private static final String TESTS =
      """
      [[test]]
      test = "exercise"
      strokes = 1
      [[test]]
      test = "stroke time"
      repeats = 1
      [[test]]
      test = "travel error"
      points_pct = [0, 50, 100]
      cycles = 1
      """;

  private static final String LIMITS =
      """
      [limits]
      travel_error_pct = 1.0
      stroke_time_opening_s = { min = 13.5, max = 16.5 }
      stroke_time_closing_s = { min = 13.5, max = 16.5 }
      """;

  /** When the fault strikes in a run without one, and when the attempt at its test ends. */
  private static final Map<String, Moment> MOMENTS = new ConcurrentHashMap<>();

  /** Longer than every time-out of the benches. */
  private static final long LATE = 800_000_000L;

  /** The faults, and the words of which the record must have one. */
  enum Kind {
    NO_REPLY("no reply"),
    LATE_REPLY("no reply", "late reply"),
    REPLY_TO_THE_ONE_BEFORE(
        "late reply", "wrong address", "wrong function", "wrong length", "the echo differs"),
    BAD_CRC("bad CRC", "check digits are wrong"),
    CUT("cut frame", "cut reply"),
    GARBAGE_BEFORE("garbage before", "garbage:", "not Modbus TCP"),
    GARBAGE_AFTER("garbage after"),
    WRONG_ADDRESS("wrong address"),
    WRONG_FUNCTION("wrong function"),
    EXCEPTION("exception 04, server device failure", "execution error", "answers error 5"),
    WRONG_NUMBER("wrong transaction number"),
    FROZEN("frozen value"),
    GAP("gap"),
    UNPLUGGED("port gone"),
    RESET("port gone"),
    CUT_OFF_BEFORE("port gone"),
    HALF_OPEN("no reply"),
    DRIP("cut frame", "cut reply");

    private final String words;

    Kind(String... words) {
      this.words = String.join("|", words);
    }

    boolean isTold(String text) {
      return Stream.of(words.split("\\|", -1)).anyMatch(text::contains);
    }

    /** Whether it is a single silence or loss, after which everything answers as before. */
    boolean comesBack() {
      return switch (this) {
        case NO_REPLY, UNPLUGGED, RESET, CUT_OFF_BEFORE, HALF_OPEN -> true;
        default -> false;
      };
    }

    /** The table for a simulation file; empty where none has a word for it. */
    Optional<String> script(FaultyRequest at, Moment moment) {
      double once = Scripted.ONE_EXCHANGE_SECONDS;
      double rest = (moment.endNanos() - moment.nanos()) / 1e9;
      return switch (this) {
        case NO_REPLY -> Optional.of(table(at, "drop", moment, once));
        case REPLY_TO_THE_ONE_BEFORE -> Optional.of(table(at, "one behind", moment, once));
        case CUT -> Optional.of(table(at, "cut", moment, once));
        case GAP -> Optional.of(table(at, "late", moment, once) + "late_ms = 450\n");
        case RESET -> Optional.of(table(at, "reset", moment, once));
        case CUT_OFF_BEFORE -> Optional.of(table(at, "unplug", moment, once));
        case UNPLUGGED -> Optional.of(table(at, "unplug", moment, 3.0));
        case HALF_OPEN -> Optional.of(table(at, "half open", moment, once));
        case DRIP -> Optional.of(table(at, "slow bytes", moment, once) + "byte_ms = 250\n");
        case FROZEN -> Optional.of(table(at, "freeze", moment, rest));
        case BAD_CRC ->
            Optional.of(table(at, "bad CRC", moment, once)).filter(t -> at.wire().framed());
        case EXCEPTION ->
            Optional.of(table(at, "exception", moment, once)).filter(t -> at.wire().modbus());
        default -> Optional.empty();
      };
    }

    private static String table(FaultyRequest at, String kind, Moment moment, double seconds) {
      return Scripted.fault(at.instrument(), kind, Scripted.during(moment.nanos() / 1e9, seconds));
    }

    /** Whether there is such a fault there. */
    boolean appliesTo(FaultyRequest at) {
      return switch (this) {
        // The line bench's input box seals its messages, its source does not.
        case BAD_CRC -> at.wire().framed() || (at.wire() == Wire.LINE && at.sampled());
        case WRONG_ADDRESS, WRONG_FUNCTION -> at.wire().modbus();
        case WRONG_NUMBER -> at.wire() == Wire.MODBUS_TCP;
        // What a meter can't do, it says in its error queue, which only commands look into.
        case EXCEPTION -> at.wire() != Wire.SCPI || at.source();
        case FROZEN -> at.loop() || (at.sampled() && at.role() != Role.SWITCHES);
        // Three sample periods of the one line are longer than its time-outs.
        case GAP -> at.wire() == Wire.LINE && at.sampled();
        default -> true;
      };
    }
  }

  /** Each fault, protocol and role once: by turns in a stroke and in a travel test. */
  static Stream<Arguments> matrix() {
    List<Arguments> all = new ArrayList<>();
    for (FaultyRequest at : FaultyRequest.all()) {
      for (Kind kind : Kind.values()) {
        if (kind.appliesTo(at)) {
          all.add(Arguments.of(at, kind, all.size() % 2 == 0 ? STROKE : TRAVEL));
        }
      }
    }
    return all.stream();
  }

  @ParameterizedTest(name = "{0} {1} in {2}")
  @MethodSource("matrix")
  void aSoundUnitPassesOrHasNoVerdict(FaultyRequest at, Kind kind, String test) {
    Moment moment = moment("healthy-b", at, test);
    OnceInTest weather = new OnceInTest(at, kind, test);
    VirtualBench bench = bench("healthy-b", at, kind, moment).weather(weather).watchedBy(weather);
    RunRecord record = bench.run();
    JudgedRun run = VirtualBench.judge(record);

    assertThat(weather.firedAt).as("the fault happened").isEqualTo(moment.nanos());
    assertThat(weather.story).as("%s %s in %s is named", at, kind, test).anyMatch(kind::isTold);
    weather.story.forEach(Sentences::requireOneStory);
    assertThat(weather.repeated).as("settings sent twice").isZero();
    assertThat(bench.result().safe().confirmed())
        .as("%s %s in %s: %s", at, kind, test, bench.result())
        .isTrue();
    assertThat(bench.trueLoopMilliamps()).isCloseTo(SAFE_MILLIAMPS, within(0.02));
    // A link that is merely silent or gone for a moment comes back: there the run must go on.
    if (kind.comesBack() || bench.result().how() == RunEnded.How.COMPLETE) {
      assertThat(bench.result().how()).isEqualTo(RunEnded.How.COMPLETE);
      assertThat(run.verdict()).as(run.reason()).isEqualTo(Word.PASS);
      assertDoneAgainOrSound(record, test);
    } else {
      assertThat(bench.result().how()).isEqualTo(RunEnded.How.FAULT);
      assertThat(record.closed().orElseThrow().how()).isEqualTo("fault");
      assertThat(run.verdict()).isEqualTo(Word.NO_RESULT);
      assertThat(run.passed()).isFalse();
    }
  }

  /** Every third: all faults, protocols and roles are among them, if not each with each. */
  static Stream<Arguments> third() {
    List<Arguments> all = matrix().toList();
    return IntStream.range(0, all.size()).filter(i -> i % 3 == 0).mapToObj(all::get);
  }

  @ParameterizedTest(name = "{0} {1} in {2}")
  @MethodSource("third")
  void aFaultyUnitNeverPasses(FaultyRequest at, Kind kind, String test) {
    Moment moment = moment("zero-shift", at, test);
    OnceInTest weather = new OnceInTest(at, kind, test);
    VirtualBench bench = bench("zero-shift", at, kind, moment);
    JudgedRun run = bench.weather(weather).watchedBy(weather).judge();
    assertThat(weather.firedAt).isEqualTo(moment.nanos());
    assertThat(run.passed()).isFalse();
    assertThat(run.verdict()).isIn(Word.FAIL, Word.NO_RESULT);
  }

  /**
   * The instants of one test of a sound run, ns of the bench.
   *
   * @param nanos when the fault will strike
   * @param endNanos when the attempt ended
   */
  record Moment(long nanos, long endNanos) {}

  /** Up to the fault a run with it is the same as one without. */
  private static Moment moment(String unit, FaultyRequest at, String test) {
    return MOMENTS.computeIfAbsent(
        unit + at + test,
        key -> {
          OnceInTest ear = new OnceInTest(at, Kind.NO_REPLY, test);
          brief(at, VirtualBench.simulation(unit)).weather(ear).watchedBy(ear).run();
          return new Moment(ear.firedAt, ear.endedAt);
        });
  }

  private static VirtualBench bench(String unit, FaultyRequest at, Kind kind, Moment moment) {
    return brief(at, VirtualBench.simulation(unit, kind.script(at, moment).orElse("")));
  }

  private static VirtualBench brief(FaultyRequest at, Simulation unit) {
    return at.bench(unit)
        .unitType(text -> text.replaceAll("(?s)\\[limits].*", LIMITS))
        .tests(TESTS);
  }

  /** A void attempt is followed by the confirmed safe signal, and only then by the next. */
  private static void assertDoneAgainOrSound(RunRecord record, String test) {
    Optional<Event.MadeSafe> safe = Optional.empty();
    boolean isVoid = false;
    for (Event event : record.entries().stream().map(Entry::event).toList()) {
      if (event instanceof Event.TestEnded ended && ended.outcome().equals("void")) {
        assertThat(ended.test()).isEqualTo(test);
        isVoid = true;
        safe = Optional.empty();
      } else if (event instanceof Event.MadeSafe made) {
        safe = Optional.of(made);
      } else if (event instanceof Event.TestBegan began && isVoid) {
        assertThat(safe).as("safe before attempt " + began.attempt()).isPresent();
        assertThat(safe.get().confirmed()).isTrue();
        isVoid = false;
      }
    }
    assertThat(isVoid).isFalse();
  }

  /** All that an entry of the record says of a fault; empty if nothing. */
  private static Optional<String> told(Entry entry) {
    if (entry.event() instanceof Event.Faulted f) {
      return Optional.of(f.fault() + ": " + f.detail());
    }
    return entry.event() instanceof Event.Sampled s && s.raw().contains(" after ")
        ? Optional.of(s.raw())
        : Optional.empty();
  }

  /** Makes one fault in the first attempt at a test, and counts what is set twice after it. */
  private static final class OnceInTest implements FaultyLinks.Weather, Spectator {
    private final FaultyRequest at;
    private final Kind kind;
    private final String test;
    private boolean attempting;
    private int commands;
    private int requests;
    private long firedAt;
    private long endedAt;
    private boolean open;
    private byte[] safe = {};
    private byte[] lastSetting = {};
    private int repeated;
    private final List<String> story = new ArrayList<>();

    OnceInTest(FaultyRequest at, Kind kind, String test) {
      this.at = at;
      this.kind = kind;
      this.test = test;
    }

    @Override
    public void happened(Entry entry) {
      if (firedAt > 0) {
        told(entry).ifPresent(story::add);
      }
      if (entry.event() instanceof Event.TestBegan began) {
        attempting = began.test().equals(test) && began.attempt() == 1;
        commands = 0;
      } else if (entry.event() instanceof Event.TestEnded) {
        endedAt = attempting ? entry.nanos() : endedAt;
        attempting = false;
      } else if (entry.event() instanceof Event.Commanded) {
        commands++;
        requests = 0;
        open = false;
      } else if (entry.event() instanceof Event.MadeSafe) {
        open = false;
      }
    }

    @Override
    public void progressed(Progress progress) {
      // Events tell enough.
    }

    @Override
    public Fault at(Endpoint endpoint, long nanos, byte[] request) {
      countSettings(endpoint, request);
      if (!attempting || firedAt > 0 || !at.is(endpoint, request)) {
        return new Fault.None();
      }
      requests++;
      // A setpoint that is not the safe signal, the meter at the rest before it, or a sample under
      // way: the way up of the stroke, or to the third point.
      int before = test.equals(STROKE) ? 1 : 2;
      boolean now = at.sampled() ? commands == before + 1 && requests == 15 : commands == before;
      if (!now) {
        return new Fault.None();
      }
      firedAt = nanos;
      open = true;
      return fault();
    }

    /** The safe signal, which comes first of all, may be said as often as it takes. */
    private void countSettings(Endpoint endpoint, byte[] request) {
      if (at.sets(endpoint, request)) {
        byte[] setting = setting(request);
        safe = safe.length == 0 ? setting : safe;
        boolean again = open && Arrays.equals(setting, lastSetting);
        repeated += again && !Arrays.equals(setting, safe) ? 1 : 0;
        lastSetting = setting;
      }
    }

    /** A transaction number is another each time. */
    private byte[] setting(byte[] request) {
      return Arrays.copyOfRange(request, at.head(), request.length);
    }

    /** What no simulation file scripts. */
    private Fault fault() {
      return switch (kind) {
        case LATE_REPLY -> new Fault.Kept(LATE);
        case GARBAGE_BEFORE -> new Fault.Changed(reply -> joined(garbage(), reply));
        case GARBAGE_AFTER -> new Fault.Changed(reply -> joined(reply, garbage()));
        case WRONG_ADDRESS -> new Fault.Changed(reply -> at.with(reply, at.head(), 9));
        case WRONG_FUNCTION -> new Fault.Changed(reply -> at.with(reply, at.head() + 1, 3));
        case WRONG_NUMBER -> new Fault.Changed(reply -> at.with(reply, 0, reply[0] + 1));
        case BAD_CRC ->
            at.wire().framed() ? new Fault.None() : new Fault.Changed(LinkFaultMatrixTest::flipped);
        case EXCEPTION -> at.wire().modbus() ? new Fault.None() : new Fault.Changed(at::refusal);
        default -> new Fault.None();
      };
    }
  }

  private static byte[] garbage() {
    return new byte[] {(byte) 0xFF, 0x01, (byte) 0xFE};
  }

  private static byte[] joined(byte[] first, byte[] second) {
    byte[] both = Arrays.copyOf(first, first.length + second.length);
    System.arraycopy(second, 0, both, first.length, second.length);
    return both;
  }

  /** One bit of what lies between head and check digits. */
  private static byte[] flipped(byte[] reply) {
    byte[] other = reply.clone();
    other[4] ^= 1;
    return other;
  }
}
