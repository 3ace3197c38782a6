package org.benchstroke.speed;

import java.io.IOException;
import java.net.InetSocketAddress;
import java.net.Socket;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.TreeMap;
import java.util.concurrent.ConcurrentSkipListMap;
import org.benchstroke.app.Defaults;
import org.benchstroke.app.stations.Driven;
import org.benchstroke.app.stations.Floor;
import org.benchstroke.app.stations.Output;
import org.benchstroke.app.stations.Point;
import org.benchstroke.app.stations.Station;
import org.benchstroke.core.clock.SystemClock;
import org.benchstroke.web.Browser;
import org.benchstroke.web.Caller;
import org.benchstroke.web.Screen;
import org.benchstroke.web.StationPages;
import org.benchstroke.web.access.Door;
import org.benchstroke.web.access.Operators;

/** The bench screen: from a sample to the eye, and what a browser keeps of a long day. */
@SuppressWarnings("try")
final class ScreenSpeed {
  private static final int STATIONS = 16;
  private static final OptionalDouble REAL_TIME = OptionalDouble.of(1.0);

  /** What a page is told in eight hours at 20 samples a second, ten in a message. */
  private static final int MESSAGES = 8 * 3600 * 20 / 10;

  /** Listens as the page does, and notes when each sample could be seen. */
  private static final String LISTEN =
      """
      window.arrived = [];
      new EventSource('/station/A/live').addEventListener('points', e => {
        const {points, whole} = JSON.parse(e.data);
        if (whole) return; // what was there before it came
        requestAnimationFrame(() => {
          const at = performance.timeOrigin + performance.now();
          for (const p of points) window.arrived.push([p[0], at]);
        });
      });
      """;

  /** Before a page's own scripts: what it listens with can be spoken to. */
  private static final String SPOKEN_TO =
      """
      window.sources = [];
      window.EventSource = class {
        constructor() { this.told = {}; this.readyState = 1; window.sources.push(this); }
        addEventListener(kind, handler) { this.told[kind] = handler; }
        close() {}
      };
      """;

  private static final String SPEAK =
      """
      const [from, to, done] = arguments;
      const page = document.querySelector('.station');
      const seen = JSON.parse(page.dataset.seen);
      const told = window.sources[0].told;
      const say = (kind, data) => told[kind]({data: JSON.stringify(data)});
      let i = from;
      const some = () => {
        for (const end = Math.min(to, i + 20); i < end; i++) {
          const points = [];
          for (let k = 0; k < 10; k++) {
            const s = i * 0.5 + k * 0.05;
            points.push([s, 50, 50 + Math.sin(s)]);
          }
          say('points', {whole: false, points});
          say('seen', {...seen, stage: 'running', position: 50 + Math.sin(i), left: 28800 - i / 2});
        }
        if (i < to) requestAnimationFrame(some); else done(i);
      };
      some();
      """;

  private final Path folder;

  ScreenSpeed(Path folder) {
    this.folder = folder;
  }

  /** A screen of a floor, for whoever sits at this machine. */
  static Screen open(Floor floor) throws Exception {
    SystemClock clock = SystemClock.realTime();
    Door door =
        new Door(new Operators(Optional.empty(), clock), Optional.empty(), List.of(), false, clock);
    return Screen.open(
        "127.0.0.1",
        0,
        door,
        new Screen.Content(
            "A shop, invented", true, List.of(new StationPages(floor, Defaults.NONE, List.of()))));
  }

  /** Stations that run, each on its way, watched by four browsers of which one takes nothing. */
  static final class Watched implements AutoCloseable {
    private final Driven driven;
    private final Screen screen;
    private final List<Socket> browsers = new ArrayList<>();

    Watched(Path folder, int stations) throws Exception {
      driven =
          Driven.floor(
              Files.createTempDirectory(folder, "floor"), stations, REAL_TIME, Driven.QUICK);
      screen = open(driven.floor());
      for (Station station : driven.floor().stations()) {
        driven.floor().take(station, Driven.sheet("QT-1" + station.place().letter()), Driven.ANN);
        station.start(Driven.ANN);
        Thread person = new Thread(() -> consent(station), "person at " + station.place().letter());
        person.setDaemon(true);
        person.start();
      }
      for (Station station : driven.floor().stations()) {
        driven.await(station, seen -> seen.running().output() == Output.LIVE);
      }
      for (int i = 0; i < 3; i++) {
        browsers.add(listening(i == 0));
      }
    }

    private void consent(Station station) {
      try {
        driven.whole(station, Driven.ANN);
      } catch (Exception | AssertionError e) {
        // It was stopped, as all are at the end.
        return;
      }
    }

    /** Of all stations; one that takes nothing has next to no room for what waits, either. */
    private Socket listening(boolean stalled) throws IOException {
      Socket socket = new Socket();
      if (stalled) {
        socket.setReceiveBufferSize(1024);
      }
      socket.connect(new InetSocketAddress("127.0.0.1", screen.port()));
      String request = new Caller(screen.port()).head("GET", "/stations/live") + "\r\n";
      socket.getOutputStream().write(request.getBytes(StandardCharsets.US_ASCII));
      if (!stalled) {
        Thread reader = new Thread(() -> readAll(socket), "browser");
        reader.setDaemon(true);
        reader.start();
      }
      return socket;
    }

    private static void readAll(Socket socket) {
      try {
        socket.getInputStream().transferTo(java.io.OutputStream.nullOutputStream());
      } catch (IOException e) {
        // It was closed at the end.
        return;
      }
    }

    String url(String path) {
      return screen.url() + path.substring(1);
    }

    Driven driven() {
      return driven;
    }

    @Override
    public void close() throws IOException {
      for (Socket browser : browsers) {
        browser.close();
      }
      screen.close();
      driven.close();
    }
  }

  /** From the moment at which a sample is there to the frame in which a browser shows it. */
  void latency(Extent extent) throws Exception {
    try (Watched watched = new Watched(folder, extent.of(STATIONS, 2))) {
      Browser browser = Browser.fresh();
      Station station = watched.driven().station();
      Map<Double, Double> made = new ConcurrentSkipListMap<>();
      Thread noting = new Thread(() -> note(watched.driven().floor(), station, made), "noting");
      noting.start();
      browser.open(watched.url("/station/A"));
      browser.run(LISTEN);
      int wanted = extent.of(400, 10);
      browser.until(
          wanted + " samples were seen",
          () -> (Long) browser.run("return window.arrived.length") >= wanted);
      List<?> arrived = (List<?>) browser.run("return window.arrived");
      noting.interrupt();
      noting.join();
      double[] late = lateness(arrived, new TreeMap<>(made));
      table("sample to frame, " + watched.driven().floor().stations().size() + " stations", late);
      firstView(watched, browser);
    }
  }

  private static double[] lateness(List<?> arrived, TreeMap<Double, Double> made) {
    List<Double> late = new ArrayList<>();
    for (Object each : arrived) {
      double seconds = ((Number) ((List<?>) each).get(0)).doubleValue();
      double at = ((Number) ((List<?>) each).get(1)).doubleValue();
      Map.Entry<Double, Double> nearest = made.ceilingEntry(seconds - 0.006);
      // Those of before the browser came are told at once, and are old.
      if (nearest != null && nearest.getKey() < seconds + 0.006) {
        late.add(at - nearest.getValue());
      }
    }
    double[] sorted = late.stream().mapToDouble(v -> v).sorted().toArray();
    // Where the machine is busy, who notes a sample may be later than the browser.
    if (sorted.length < arrived.size() / 4 || sorted[sorted.length / 2] < 0.0) {
      throw new IllegalStateException(
          sorted.length
              + " of "
              + arrived.size()
              + " samples were found, or before they were made");
    }
    return sorted;
  }

  /** When each sample of a station was there, ms of the wall. */
  private static void note(Floor floor, Station station, Map<Double, Double> made) {
    long has = station.since(0).end();
    try {
      while (true) {
        long known = has;
        floor.bell().await(() -> station.since(known).end() != known, 1000);
        Station.Fresh fresh = station.since(known);
        Instant now = Instant.now();
        double millis = now.getEpochSecond() * 1e3 + now.getNano() / 1e6;
        for (Point point : fresh.points()) {
          made.putIfAbsent(point.seconds(), millis);
        }
        has = fresh.end();
      }
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
  }

  private static void firstView(Watched watched, Browser browser) {
    double[] millis = new double[5];
    for (int i = 0; i < millis.length; i++) {
      browser.forgetFiles().open(watched.url("/"));
      browser.until(
          "something is painted",
          () ->
              (Long)
                      browser.run(
                          "return performance.getEntriesByName('first-contentful-paint').length")
                  > 0);
      millis[i] =
          ((Number)
                  browser.run(
                      "return performance.getEntriesByName('first-contentful-paint')[0].startTime"))
              .doubleValue();
    }
    Arrays.sort(millis);
    table("first view of all stations, nothing kept", millis);
  }

  private static void table(String what, double[] sorted) {
    System.out.printf(
        Locale.ROOT,
        "%n%s: %d%n| median %.0f ms | 99 %% %.0f ms | longest %.0f ms |%n",
        what,
        sorted.length,
        sorted[sorted.length / 2],
        sorted[(int) (sorted.length * 0.99)],
        sorted[sorted.length - 1]);
  }

  /** What a page holds after a day's news, told to its own scripts as fast as they take them. */
  void memory(Extent extent) throws Exception {
    int all = extent.of(MESSAGES, 1600);
    try (Watched watched = new Watched(folder, 1)) {
      Browser browser = Browser.fresh().beforeScripts(SPOKEN_TO);
      browser.open(watched.url("/station/A"));
      long[] bytes = new long[5];
      for (int i = 0; i < bytes.length; i++) {
        long done =
            (Long)
                browser.runUntilDone(SPEAK, i * all / bytes.length, (i + 1) * all / bytes.length);
        if (done != (i + 1) * all / bytes.length) {
          throw new IllegalStateException("the page took " + done + " messages");
        }
        bytes[i] = browser.heapBytes();
      }
      System.out.printf(
          Locale.ROOT,
          "%n%d messages of ten samples, what the page's scripts hold, MB:%n| %.2f | %.2f | %.2f | %.2f"
              + " | %.2f |%n",
          all,
          bytes[0] / 1e6,
          bytes[1] / 1e6,
          bytes[2] / 1e6,
          bytes[3] / 1e6,
          bytes[4] / 1e6);
      // A byte kept of each message would be seen, not only a message.
      if (bytes[4] - bytes[1] > 500_000) {
        throw new IllegalStateException("the page grows: " + Arrays.toString(bytes));
      }
    }
  }
}
