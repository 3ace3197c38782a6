package org.benchstroke.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.stream.Stream;
import org.benchstroke.core.clock.LeapingClock;
import org.benchstroke.io.transport.Endpoint;
import org.benchstroke.record.Event;
import org.benchstroke.record.RunRecord;
import org.benchstroke.simulator.SimulatedBench;
import org.benchstroke.simulator.Simulation;
import org.benchstroke.simulator.SimulationReader;
import org.benchstroke.simulator.SimulatorServer;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/**
 * The real {@code run} command over real sockets that fail in the middle of it: over SCPI, the
 * source's language on the simulated bench, and over Modbus TCP, its module's.
 */
@Timeout(300)
class RealLinkFaultTest {
  private static final int SIDE_BY_SIDE = 8;

  /** In the middle of the tests; the preflight takes some dozens of requests. */
  private static final Map<String, Integer> REQUESTS = Map.of("scpi", 40, "modbus", 300);

  private static final String BRIEF =
      """
      [[test]]
      test = "exercise"
      strokes = 1
      [[test]]
      test = "travel error"
      points_pct = [0, 20, 40]
      cycles = 2
      """;

  /** A busy machine is not what is looked at here. */
  private static final String LIMITS = "travel_error_pct = 1.0\n" + ShortRun.VERY_PATIENT;

  private record Case(String protocol, Gate.Failure failure) {
    boolean returns() {
      return failure != Gate.Failure.GONE;
    }
  }

  @TempDir static Path folder;

  private static final ExecutorService RUNS = Executors.newFixedThreadPool(SIDE_BY_SIDE);
  private static final Map<Case, Future<ShortRun>> ENDS = new LinkedHashMap<>();

  static Stream<Case> cases() {
    return REQUESTS.keySet().stream()
        .sorted()
        .flatMap(p -> Stream.of(Gate.Failure.values()).map(failure -> new Case(p, failure)));
  }

  @BeforeAll
  static void begin() {
    cases().forEach(each -> ENDS.put(each, RUNS.submit(() -> run(each))));
  }

  @AfterAll
  static void end() {
    RUNS.shutdownNow();
  }

  @ParameterizedTest
  @MethodSource("cases")
  void theFaultIsNamedAndNothingOfItBecomesAFigure(Case each) throws Exception {
    ShortRun end = ENDS.get(each).get();
    RunRecord record = end.record();
    String said = end.said();
    assertThat(end.faults()).as(said).contains(named(each.failure()));
    assertThat(record.flaws()).isEmpty();
    assertThat(record.closed()).isPresent();
    assertThat(said).contains("Safe signal: ");
    assertThat(ends(record, "void")).as(said).isNotEmpty();
    List<Event.MadeSafe> safe = end.madeSafe();
    if (each.returns()) {
      assertThat(end.code()).as(said).isZero();
      assertThat(ends(record, "complete")).containsExactly("exercise", "travel error");
      assertThat(safe.get(safe.size() - 1).confirmed()).isTrue();
    } else {
      assertThat(end.code()).as(said).isEqualTo(3);
      assertThat(record.closed().orElseThrow().how()).isEqualTo("fault");
      // The source is what can't be reached where it is SCPI that failed.
      boolean sourceLost = each.protocol().equals("scpi");
      assertThat(safe.get(safe.size() - 1).confirmed()).as(said).isEqualTo(!sourceLost);
      assertThat(said.contains("commanded, but not confirmed")).as(said).isEqualTo(sourceLost);
    }
  }

  private static String named(Gate.Failure failure) {
    return switch (failure) {
      case RESET, GONE -> "port gone";
      case HALF_OPEN, DRIP -> "no reply";
    };
  }

  private static List<String> ends(RunRecord record, String outcome) {
    return record
        .events(Event.TestEnded.class)
        .filter(e -> e.outcome().equals(outcome))
        .map(Event.TestEnded::test)
        .toList();
  }

  private static ShortRun run(Case each) throws Exception {
    Simulation simulation = SimulationReader.read(Path.of("simulators/healthy-b.toml"));
    Path own = Files.createDirectories(folder.resolve(each.protocol() + each.failure()));
    String limits = LIMITS + "recovery_s = " + (each.returns() ? 60 : 1) + "\n";
    LeapingClock clock = new LeapingClock();
    List<Gate> gates = new ArrayList<>();
    try (SimulatorServer server =
        SimulatorServer.start(SimulatedBench.of(simulation), clock.followed(), Map.of())) {
      String toml = server.benchToml();
      for (Map.Entry<Endpoint, Endpoint.Tcp> port : server.addresses().entrySet()) {
        int target = port.getValue().port();
        String address = "tcp://127.0.0.1:" + target;
        int at = toml.indexOf(address);
        boolean scpi = speaksScpi(toml, at);
        boolean fails = each.protocol().equals(scpi ? "scpi" : "modbus");
        int requests = fails ? REQUESTS.get(each.protocol()) : Integer.MAX_VALUE;
        Gate gate = Gate.to(target, each.failure(), requests);
        gates.add(gate);
        toml = toml.replace(address, "tcp://127.0.0.1:" + gate.port());
      }
      ShortRun end = ShortRun.of(clock, toml, BRIEF, limits, own);
      assertThat(gates).as(end.said()).anyMatch(Gate::failed);
      return end;
    } finally {
      for (Gate gate : gates) {
        gate.close();
      }
    }
  }

  /** Whether the instrument of an address speaks SCPI: the key stands right beside it. */
  private static boolean speaksScpi(String toml, int at) {
    int block = toml.lastIndexOf("[[instrument]]", at);
    int next = toml.indexOf("[[instrument]]", at);
    String own = toml.substring(block, next < 0 ? toml.length() : next);
    return own.contains("speaks = \"scpi\"");
  }
}
