package org.benchstroke.speed;

import com.sun.management.ThreadMXBean;
import java.io.IOException;
import java.lang.management.ManagementFactory;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import java.util.Optional;
import java.util.OptionalInt;
import org.benchstroke.core.clock.SystemClock;
import org.benchstroke.io.modbus.ModbusRtuLine;
import org.benchstroke.io.modbus.ModbusTcpLine;
import org.benchstroke.io.modbus.RtuTiming;
import org.benchstroke.io.transport.Endpoint;
import org.benchstroke.io.transport.PortName;
import org.benchstroke.io.transport.PtyPair;
import org.benchstroke.io.transport.SerialSettings;
import org.benchstroke.io.transport.SystemLinks;
import org.benchstroke.simulator.PacedWire;

/** How fast this product polls, beside others in the same run. */
@SuppressWarnings("try")
final class PollingSpeed {
  private static final PortName ANY = new PortName.Device("any");

  /** A request for registers and the answer with two of them. */
  private static final double CHARACTERS = 8 + 9;

  private static final int STATIONS = 64;
  private static final int STATION_POLLS = 20 * 60;
  private static final int STATION_POLLS_BEFORE = 20 * 5;
  private static final long PERIOD_NANOS = 50_000_000L;

  private final SystemClock clock = SystemClock.realTime();
  private final Path folder;

  PollingSpeed(Path folder) {
    this.folder = folder;
  }

  /** The same server behind a pseudo-terminal that takes no time; nobody waits between frames. */
  void rtu(Extent extent) throws Exception {
    rtu(extent, 0);
    rtu(extent, 1);
  }

  private void rtu(Extent extent, int busyCores) throws Exception {
    Path server = NeutralServer.built("poll_server", folder);
    Path client = NeutralServer.built("poll_client", folder);
    try (PtyPair cable = PtyPair.in(folder);
        NeutralServer running = NeutralServer.started(server, "rtu", path(cable.far()));
        OtherWork other = OtherWork.on(busyCores)) {
      String near = path(cable.near());
      table(
          "RTU on a pseudo-terminal without pace, no silence between frames"
              + OtherWork.words(busyCores),
          new Rates(extent)
              .with("libmodbus (C)", s -> NeutralServer.measured(client, "rtu", near, "" + s))
              .with("benchstroke", s -> opened(() -> ours(cable.near(), 115200, 0), s))
              .with("j2mod 3.3.0", s -> opened(() -> Poller.j2modRtu(near, 115200), s))
              .with(
                  "digitalpetri 2.1.4", s -> opened(() -> Poller.digitalpetriRtu(near, 115200), s))
              .measured());
    }
  }

  private interface Opening {
    Poller open() throws Exception;
  }

  /** A port belongs to one client at a time. */
  private static double opened(Opening opening, double seconds) throws Exception {
    try (Poller poller = opening.open()) {
      return Rates.of(poller, seconds);
    }
  }

  private Poller ours(Endpoint.Serial port, int baud, int silenceMicros) {
    Endpoint.Serial set = new Endpoint.Serial(port.port(), settings(baud, silenceMicros));
    return Poller.ours(new ModbusRtuLine(new SystemLinks(), set, RtuTiming.of(set), clock), clock);
  }

  private static SerialSettings settings(int baud, int silenceMicros) {
    return new SerialSettings(
        baud,
        8,
        SerialSettings.Parity.NONE,
        SerialSettings.StopBits.TWO,
        SerialSettings.FlowControl.NONE,
        Optional.empty(),
        silenceMicros < 0 ? OptionalInt.empty() : OptionalInt.of(silenceMicros));
  }

  private static String path(Endpoint.Serial end) {
    return end.text().replaceFirst("^serial:", "");
  }

  void tcp(Extent extent) throws Exception {
    Path server = NeutralServer.built("poll_server", folder);
    Path client = NeutralServer.built("poll_client", folder);
    try (NeutralServer running = NeutralServer.started(server, "tcp")) {
      int port = running.port();
      ModbusTcpLine line =
          new ModbusTcpLine(new SystemLinks(), new Endpoint.Tcp("127.0.0.1", port), clock);
      try (Poller ours = Poller.ours(line, clock);
          Poller j2mod = Poller.j2modTcp(port);
          Poller digitalpetri = Poller.digitalpetriTcp(port)) {
        table(
            "TCP on loopback",
            new Rates(extent)
                .with(
                    "libmodbus (C)", s -> NeutralServer.measured(client, "tcp", "" + port, "" + s))
                .with("benchstroke", s -> Rates.of(ours, s))
                .with("j2mod 3.3.0", s -> Rates.of(j2mod, s))
                .with("digitalpetri 2.1.4", s -> Rates.of(digitalpetri, s))
                .measured());
      }
    }
  }

  private static void table(String title, Rates rates) {
    System.out.printf(Locale.ROOT, "%n%s%n", title);
    for (String name : rates.names()) {
      System.out.printf(
          Locale.ROOT,
          "| %-20s | %8.0f polls/s | benchstroke is %5.2f × |%n",
          name,
          rates.median(name),
          rates.ratio("benchstroke", name));
    }
  }

  /**
   * Our master against a server that takes the time of a wire, beside what the wire allows: request
   * and reply, the silence before each, and the turn-round of server and pseudo-terminals, which
   * libmodbus measures on both ends of the same cable without any pace.
   */
  void paced(Extent extent) throws Exception {
    double turnRound = turnRoundSeconds(extent);
    System.out.printf(
        Locale.ROOT,
        "%nRTU paced like a wire, 11 bits a character; turn-round without pace %.0f µs%n",
        turnRound * 1e6);
    for (int baud : new int[] {9600, 19200, 115200}) {
      paced(baud, -1, turnRound, extent);
    }
    paced(115200, 334, turnRound, extent);
  }

  private double turnRoundSeconds(Extent extent) throws Exception {
    Path server = NeutralServer.built("poll_server", folder);
    Path client = NeutralServer.built("poll_client", folder);
    double best = 0.0;
    try (PtyPair cable = PtyPair.in(folder);
        NeutralServer running = NeutralServer.started(server, "rtu", path(cable.far()))) {
      for (int round = 0; round < extent.of(5, 1); round++) {
        best =
            Math.max(
                best,
                NeutralServer.measured(
                    client, "rtu", path(cable.near()), extent.of(10, 1) / 10.0 + ""));
      }
    }
    return 1.0 / best;
  }

  private void paced(int baud, int silenceMicros, double turnRound, Extent extent)
      throws Exception {
    SerialSettings settings = settings(baud, silenceMicros);
    long servers = PacedWire.silenceNanos(settings);
    long own = RtuTiming.of(new Endpoint.Serial(ANY, settings)).silenceNanos();
    try (PtyPair cable = PtyPair.in(folder);
        PacedServer server = PacedServer.started(cable.far(), settings, servers, clock)) {
      double wire = (CHARACTERS * settings.characterNanos() + servers + own) / 1e9;
      List<Double> rates = new ArrayList<>();
      for (int round = 0; round < extent.of(7, 1); round++) {
        double seconds = extent.of(20, 1) / 10.0;
        rates.add(opened(() -> ours(cable.near(), baud, silenceMicros), seconds));
      }
      double rate = rates.stream().sorted().toList().get(rates.size() / 2);
      System.out.printf(
          Locale.ROOT,
          "| %6d baud, own silence %4d µs | %6.1f polls/s | %5.1f %% of wire and turn-round |"
              + " %5.1f %% of the wire alone |%n",
          baud,
          own / 1000,
          rate,
          100.0 * rate * (wire + turnRound),
          100.0 * rate * wire);
    }
  }

  /** What a poll leaves behind, and whether the heap grows. */
  void memory(Extent extent) throws Exception {
    Path server = NeutralServer.built("poll_server", folder);
    ThreadMXBean threads = (ThreadMXBean) ManagementFactory.getThreadMXBean();
    try (NeutralServer running = NeutralServer.started(server, "tcp");
        Poller ours = tcp(running.port())) {
      Rates.of(ours, extent.of(30, 1) / 10.0);
      long before = threads.getCurrentThreadAllocatedBytes();
      int polls = extent.of(100_000, 100);
      for (int i = 0; i < polls; i++) {
        ours.poll();
      }
      long each = (threads.getCurrentThreadAllocatedBytes() - before) / polls;
      System.out.printf(
          Locale.ROOT, "%nMemory over TCP%n| allocated by a poll | %d bytes |%n", each);
      for (int hour = 0; hour <= extent.of(10, 1); hour++) {
        System.out.printf(
            Locale.ROOT,
            "| heap in use after %2d h at 20 polls a second | %.2f MiB |%n",
            hour,
            heapMebibytes());
        for (int i = 0; i < extent.of(72_000, 20); i++) {
          ours.poll();
        }
      }
    }
    try (PtyPair cable = PtyPair.in(folder);
        NeutralServer running = NeutralServer.started(server, "rtu", path(cable.far()));
        Poller ours = ours(cable.near(), 115200, 0)) {
      Rates.of(ours, extent.of(30, 1) / 10.0);
      long before = threads.getCurrentThreadAllocatedBytes();
      int polls = extent.of(20_000, 100);
      for (int i = 0; i < polls; i++) {
        ours.poll();
      }
      System.out.printf(
          Locale.ROOT,
          "| allocated by a poll over RTU | %d bytes |%n",
          (threads.getCurrentThreadAllocatedBytes() - before) / polls);
    }
  }

  private static double heapMebibytes() {
    for (int i = 0; i < 3; i++) {
      System.gc();
    }
    Runtime runtime = Runtime.getRuntime();
    return (runtime.totalMemory() - runtime.freeMemory()) / 1048576.0;
  }

  private Poller tcp(int port) {
    return Poller.ours(
        new ModbusTcpLine(new SystemLinks(), new Endpoint.Tcp("127.0.0.1", port), clock), clock);
  }

  /**
   * 64 stations, each polled 20 times a second by a thread of its own, once all have been polled
   * for some seconds: a run has its preflight behind it when its first test begins.
   */
  void stations(Extent extent) throws Exception {
    stations(extent, STATIONS, OtherWork.on(0), OtherWork.words(0));
    stations(extent, STATIONS, OtherWork.on(1), OtherWork.words(1));
  }

  /**
   * Sixteen stations, polled alone and then beside the bench screen in the same process: sixteen
   * simulated runs, and four browsers of which one takes nothing.
   */
  void screen(Extent extent) throws Exception {
    int stations = extent.of(16, 2);
    stations(extent, stations, () -> {}, "");
    stations(
        extent,
        stations,
        new ScreenSpeed.Watched(folder, stations),
        ", beside the bench screen with as many runs and four browsers");
  }

  private void stations(Extent extent, int stations, AutoCloseable beside, String words)
      throws Exception {
    Path server = NeutralServer.built("poll_server", folder);
    Path sleeper = NeutralServer.built("sleeper", folder);
    try (beside;
        NeutralServer running = NeutralServer.started(server, "tcp")) {
      int port = running.port();
      List<Thread> threads = new ArrayList<>();
      int polls = extent.of(STATION_POLLS, 10);
      double[][] late = new double[stations][];
      int before = extent.of(STATION_POLLS_BEFORE, 2);
      long begin = clock.nanos() + 1_000_000_000L + before * PERIOD_NANOS;
      for (int station = 0; station < stations; station++) {
        int which = station;
        Thread thread =
            new Thread(
                () ->
                    late[which] =
                        lateness(begin + which * PERIOD_NANOS / stations, port, before, polls));
        thread.start();
        threads.add(thread);
      }
      String machine = asleep(sleeper, polls);
      for (Thread thread : threads) {
        thread.join();
      }
      if (Arrays.stream(late).anyMatch(Objects::isNull)) {
        throw new IllegalStateException("a station was not polled to the end");
      }
      double[] all = Arrays.stream(late).flatMapToDouble(Arrays::stream).sorted().toArray();
      System.out.printf(
          Locale.ROOT,
          "%n%d stations × 20 polls a second for %d s, lateness of %d polls%s%n"
              + "| median %.3f ms | 99 %% %.3f ms | 99.9 %% %.3f ms | longest %.3f ms |%n",
          stations,
          polls / 20,
          all.length,
          words,
          all[all.length / 2],
          all[(int) (all.length * 0.99)],
          all[(int) (all.length * 0.999)],
          all[all.length - 1]);
      System.out.println("| " + machine + " | of a C program that only sleeps, meanwhile |");
    }
  }

  /** How late the machine itself makes as many threads, at the same time. */
  private static String asleep(Path sleeper, int polls) throws IOException {
    try (NeutralServer asleep = NeutralServer.started(sleeper, "" + polls)) {
      return asleep.said();
    }
  }

  /** How late each poll of a station began, ms. */
  private double[] lateness(long begin, int port, int before, int polls) {
    double[] late = new double[polls];
    try (Poller poller = tcp(port)) {
      for (int i = -before; i < polls; i++) {
        long due = begin + i * PERIOD_NANOS;
        clock.waitUntil(due);
        late[Math.max(0, i)] = (clock.nanos() - due) / 1e6;
        if (poller.poll() != 50.0) {
          throw new IllegalStateException("a wrong value");
        }
      }
      return late;
    } catch (Exception e) {
      throw new IllegalStateException(e);
    }
  }
}
