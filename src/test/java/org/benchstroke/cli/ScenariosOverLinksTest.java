package org.benchstroke.cli;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.concurrent.TimeUnit;
import org.benchstroke.core.analysis.RestReading;
import org.benchstroke.core.clock.LeapingClock;
import org.benchstroke.judge.AsOrdered;
import org.benchstroke.judge.JudgedRun;
import org.benchstroke.judge.Judgement;
import org.benchstroke.judge.Measure;
import org.benchstroke.judge.Truth;
import org.benchstroke.judge.Word;
import org.benchstroke.record.Event;
import org.benchstroke.simulator.SimulatedBench;
import org.benchstroke.simulator.Simulation;
import org.benchstroke.simulator.SimulationReader;
import org.benchstroke.simulator.SimulatorServer;
import org.benchstroke.tests.RecordedRun;
import org.benchstroke.unit.MeasureKind;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.opentest4j.TestAbortedException;

/**
 * What the project's scenarios ask for, by the real {@code run} command over real sockets and
 * pseudo-terminals; the same stand on the virtual clock in the acceptance tests. When a command
 * comes within the controller's period differs from run to run, so the bounds are a little wider
 * here.
 */
@Timeout(600)
class ScenariosOverLinksTest {
  private static final int SIDE_BY_SIDE = 6;

  private static final String TRAVEL =
      """
      [[test]]
      test = "exercise"
      strokes = 1
      [[test]]
      test = "travel error"
      points_pct = [0, 25, 50, 75, 100]
      cycles = 1
      """;

  private static final String SWITCHES =
      """
      [[test]]
      test = "switches"
      creep_deg_per_s = 1.0
      margin_deg = 3
      beyond_pct = 1.0
      cycles = 1
      """;

  private static final String LOSS =
      """
      [[test]]
      test = "travel error"
      points_pct = [0, 50, 100]
      cycles = 1
      [[test]]
      test = "signal loss"
      at_pct = 50
      ways = ["low", "lost", "open loop"]
      """;

  private static final String TRAVEL_LIMITS =
      "travel_error_pct = 1.0\nhysteresis_plus_dead_band_pct = 0.8\n";
  private static final String SWITCH_LIMITS = "auxiliary_lead_deg = { min = 1.4, max = 3.4 }\n";

  @TempDir static Path folder;

  private static final ExecutorService RUNS = Executors.newFixedThreadPool(SIDE_BY_SIDE);
  private static final Map<String, Future<End>> ENDS = new ConcurrentHashMap<>();

  /** How a run ended, and its record, judged. */
  private record End(Command run, Path record, JudgedRun judged) {
    static End of(ShortRun end) throws Exception {
      return new End(end.run(), end.file(), RecordedRun.judge(end.record()));
    }
  }

  /** Starts the simulator of a unit and runs against it. */
  private interface Way {
    ShortRun run(Path own) throws Exception;
  }

  @BeforeAll
  static void begin() {
    begin("clean", sockets("healthy-b", "", TRAVEL));
    begin("clean over a line", line("healthy-b", TRAVEL));
    begin("slack", sockets("slack-after-sensor", "", TRAVEL));
    begin("dead spot", sockets("dead-spot", "", TRAVEL));
    begin("compliance", sockets("loop-resistance-too-high", "", TRAVEL));
    begin("trailing", sockets("auxiliary-trails", "", SWITCHES));
    begin("leading", sockets("healthy-b", "", SWITCHES));
    begin("loss over a line", line("healthy-b", LOSS));
    String holds = "[loss]\nopen_loop_action = \"stay\"\n";
    begin("open holds", sockets("healthy-b", holds, LOSS));
    LeapingClock one = new LeapingClock();
    begin("as found", sockets(one, "healthy-b", "[transmitter]\nspan_pct = 1.6\n", TRAVEL));
    Way left = sockets(one, "healthy-b", "[transmitter]\nspan_pct = 0.2\n", TRAVEL);
    begin("as left", own -> after("as found", left, own));
  }

  /** A unit is adjusted once it was found. */
  private static ShortRun after(String earlier, Way way, Path own) throws Exception {
    assertThat(ended(earlier).record()).exists();
    return way.run(own);
  }

  private static void begin(String name, Way way) {
    ENDS.put(
        name,
        RUNS.submit(
            () -> {
              Path own = Files.createDirectory(folder.resolve(name.replace(' ', '-')));
              return End.of(way.run(own));
            }));
  }

  @AfterAll
  static void end() throws InterruptedException {
    RUNS.shutdownNow();
    // What still runs writes into the folder.
    RUNS.awaitTermination(1, TimeUnit.MINUTES);
  }

  private static JudgedRun judged(String name) throws Exception {
    return ended(name).judged();
  }

  /** Waits for a run; one that lacks a program skips the test that asks for it. */
  private static End ended(String name) throws Exception {
    try {
      return ENDS.get(name).get();
    } catch (ExecutionException e) {
      if (e.getCause() instanceof TestAbortedException skipped) {
        throw skipped;
      }
      throw e;
    }
  }

  private static Way sockets(String unit, String more, String tests) {
    return sockets(new LeapingClock(), unit, more, tests);
  }

  private static Way sockets(LeapingClock clock, String unit, String more, String tests) {
    return own -> {
      SimulatedBench bench = SimulatedBench.of(simulation(unit, more, own));
      try (SimulatorServer server = SimulatorServer.start(bench, clock.followed(), Map.of())) {
        return run(clock, server.benchToml(), tests, own);
      }
    };
  }

  /** Modbus RTU at the speed of the wire, over a pair of pseudo-terminals. */
  private static Way line(String unit, String tests) {
    return own -> {
      LeapingClock clock = new LeapingClock();
      return SerialBench.serve(
          simulation(unit, "", own),
          clock,
          own,
          (bench, cable) -> run(clock, ShortRun.patient(bench), tests, own));
    };
  }

  private static Simulation simulation(String unit, String more, Path own) throws Exception {
    Path file = Path.of("simulators", unit + ".toml");
    if (more.isEmpty()) {
      return SimulationReader.read(file);
    }
    String text = Files.readString(file).replaceFirst("\\.\\./demo-data/unit-types/", "");
    Files.copy(ShortRun.TYPE, own.resolve(ShortRun.TYPE.getFileName()));
    return SimulationReader.read(Files.writeString(own.resolve("unit.toml"), text + "\n" + more));
  }

  private static ShortRun run(LeapingClock clock, String bench, String tests, Path own)
      throws Exception {
    String limits = tests.equals(SWITCHES) ? SWITCH_LIMITS : TRAVEL_LIMITS;
    return ShortRun.of(clock, bench, tests, limits + ShortRun.PATIENT, own);
  }

  private static Measure measure(JudgedRun run, MeasureKind kind, Truth truth) {
    return run.judgements().stream()
        .map(Judgement::measure)
        .filter(m -> m.kind() == kind && m.truth() == truth)
        .findFirst()
        .orElseThrow();
  }

  private static double value(JudgedRun run, MeasureKind kind, Truth truth) {
    return measure(run, kind, truth).value().orElseThrow();
  }

  private static Word order(JudgedRun run, String what) {
    return run.orders().stream()
        .filter(o -> o.what().equals(what))
        .map(AsOrdered::word)
        .findFirst()
        .orElseThrow();
  }

  @Test
  void aCleanUnitPassesOverSocketsAndOverASerialLine() throws Exception {
    for (String name : List.of("clean", "clean over a line")) {
      JudgedRun run = judged(name);
      assertThat(run.verdict()).as(run.reason()).isEqualTo(Word.PASS);
      assertThat(run.feedback()).hasSizeGreaterThanOrEqualTo(8);
      assertThat(run.feedback().stream().mapToDouble(RestReading::errorPercent))
          .allSatisfy(e -> assertThat(Math.abs(e)).isLessThanOrEqualTo(0.2));
      assertThat(ended(name).run().code()).isZero();
    }
  }

  @Test
  void slackIsSeenByTheAngleReferenceOnly() throws Exception {
    JudgedRun run = judged("slack");
    MeasureKind kind = MeasureKind.HYSTERESIS_PLUS_DEAD_BAND;
    assertThat(Math.abs(value(run, kind, Truth.FEEDBACK))).isLessThanOrEqualTo(0.35);
    assertThat(Math.abs(value(run, kind, Truth.STEM))).isBetween(0.75, 1.25);
    assertThat(run.passed()).isFalse();
    assertThat(run.sentences()).anyMatch(f -> f.contains("slack after the sensor"));
  }

  @Test
  void aDeadSpotEndsTheRun() throws Exception {
    End end = ended("dead spot");
    assertThat(end.run().code()).as(end.run().out()).isEqualTo(3);
    assertThat(end.run().out()).contains("impossible slew").contains("Safe signal: ");
    assertThat(end.judged().passed()).isFalse();
    assertThat(end.judged().verdict()).isEqualTo(Word.NO_RESULT);
  }

  // Ohm's law: 12 V / 700 Ω = 17.14 mA.
  @Test
  void aLoopResistanceThatIsTooHighBlocksMotion() throws Exception {
    End end = ended("compliance");
    assertThat(end.run().code()).isEqualTo(3);
    assertThat(end.run().out()).contains("loop resistance is too high");
    double found =
        end.judged()
            .record()
            .events(Event.Checked.class)
            .filter(c -> c.check().equals("loop at 20 mA"))
            .mapToDouble(c -> c.values().get("found_milliamps"))
            .sum();
    assertThat(found).isCloseTo(17.14, within(0.02));
    assertThat(end.judged().record().events(Event.Commanded.class)).isEmpty();
  }

  @Test
  void theOrderOfTheSwitchesIsSeen() throws Exception {
    JudgedRun trails = judged("trailing");
    assertThat(trails.verdict()).as(trails.reason() + trails.orders()).isEqualTo(Word.FAIL);
    assertThat(trails.reason() + trails.sentences() + trails.orders())
        .contains("auxiliary after end");
    JudgedRun leads = judged("leading");
    assertThat(leads.verdict()).as(leads.reason() + leads.orders()).isEqualTo(Word.PASS);
  }

  @Test
  void aUnitThatHoldsOnAnOpenLoopAloneFailsByIt() throws Exception {
    JudgedRun sound = judged("loss over a line");
    assertThat(sound.verdict()).as(sound.reason()).isEqualTo(Word.PASS);
    for (String way : List.of("low", "lost", "open loop")) {
      assertThat(order(sound, "signal loss: " + way)).as(way).isEqualTo(Word.PASS);
    }
    JudgedRun holds = judged("open holds");
    assertThat(holds.verdict()).as(holds.reason()).isEqualTo(Word.FAIL);
    assertThat(order(holds, "signal loss: low")).isEqualTo(Word.PASS);
    assertThat(order(holds, "signal loss: lost")).isEqualTo(Word.PASS);
    assertThat(order(holds, "signal loss: open loop")).isEqualTo(Word.FAIL);
    assertThat(holds.reason()).contains("open loop");
  }

  @Test
  void asFoundAndAsLeftStandInOneReport() throws Exception {
    End found = ended("as found");
    assertThat(found.judged().verdict()).as(found.judged().reason()).isEqualTo(Word.FAIL);
    End left = ended("as left");
    Path page = folder.resolve("both.html");
    Command report =
        Command.run("report", left.record(), "--as-found", found.record(), "--out", page);
    assertThat(report.code()).as(report.out() + report.err()).isZero();
    assertThat(report.out())
        .contains("As found: failed\nAs left: passed\nFirst-pass yield: 0 of 1\n");
    assertThat(Files.readString(page)).contains("As found: Measures", "As left: Measures");
  }
}
