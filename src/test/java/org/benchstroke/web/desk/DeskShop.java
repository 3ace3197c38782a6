package org.benchstroke.web.desk;

import java.io.IOException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.Duration;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.benchstroke.acceptance.VirtualBench;
import org.benchstroke.app.Defaults;
import org.benchstroke.app.Shelf;
import org.benchstroke.app.ShopFile;
import org.benchstroke.app.ShopFileReader;
import org.benchstroke.archive.Archive;
import org.benchstroke.archive.ArchivePlace;
import org.benchstroke.archive.ArchivedRun;
import org.benchstroke.archive.ArchivedRun.Labels;
import org.benchstroke.archive.MadeUpRuns;
import org.benchstroke.archive.ReadRun;
import org.benchstroke.core.clock.SystemClock;
import org.benchstroke.record.SealFile;
import org.benchstroke.record.signing.BenchKey;
import org.benchstroke.record.signing.BenchKeys;
import org.benchstroke.simulator.Simulation;
import org.benchstroke.web.TestScreen;

/**
 * A shop with a screen on this machine: a simulated unit whose span is off, then is not, in sealed
 * records; and made-up runs, which the archive knows and no folder. One thread.
 */
public final class DeskShop implements AutoCloseable {
  /** So many made-up runs; they are real ones to the archive. */
  static final int MADE_UP = 96;

  /** A text that would be a script if it were not written as text. */
  static final String NASTY = "<script>alert('x')</script>&\"=1+1";

  private static final long LATER_NANOS = 900_000_000_000L;

  final Path folder;
  final Path found;
  final Path left;
  final Archive archive;
  final ShopFile shop;
  private final Desk desk;
  private TestScreen screen;
  private final HttpClient client =
      HttpClient.newBuilder().connectTimeout(Duration.ofSeconds(20)).build();

  /** In a folder; its screen is opened apart. */
  public DeskShop(Path folder) throws Exception {
    this.folder = folder;
    BenchKey key = new BenchKeys(folder.resolve("key")).open("");
    found = run(1.6, "found.jsonl", 0, key);
    left = run(0.2, "left.jsonl", LATER_NANOS, key);
    ArchivePlace place = new ArchivePlace.InFile(folder.resolve("archive.sqlite"));
    archive = Archive.open(place);
    archive.add(ReadRun.of(found));
    archive.add(ReadRun.of(left));
    MadeUpRuns made = new MadeUpRuns(12);
    for (int i = 0; i < MADE_UP; i++) {
      archive.add(made.run(i));
    }
    archive.add(called(made.run(MADE_UP), NASTY, NASTY));
    shop = ShopFileReader.read(Path.of("demo-data/shop/shop.toml"));
    Defaults stated = Defaults.of(Map.of(), Optional.empty(), Optional.of(shop));
    Holdings holdings =
        new Holdings(
            folder,
            Optional.of(place),
            stated,
            Shelf.of(stated, Set.of(folder)),
            bench -> SystemClock.realTime(),
            "benchstroke, tested");
    desk = new Desk(holdings);
  }

  /** Opens a screen with its desk. */
  DeskShop open() throws Exception {
    screen = TestScreen.here(desk);
    return this;
  }

  public Desk desk() {
    return desk;
  }

  private Path run(double spanPercent, String name, long after, BenchKey key) throws IOException {
    Simulation unit = VirtualBench.simulation("healthy-b");
    VirtualBench bench =
        VirtualBench.with(
            unit.withUnit(
                unit.parameters()
                    .with(unit.parameters().transmitter().withErrors(0.0, spanPercent))));
    bench.clock().waitUntil(bench.clock().nanos() + after);
    Path record = bench.runInto(folder.resolve(name));
    SealFile.write(record, key);
    return record;
  }

  private static ArchivedRun called(ArchivedRun run, String serial, String order) {
    Labels labels = new Labels(serial, order, run.labels().customer(), NASTY, Optional.of(NASTY));
    return new ArchivedRun(
        run.file(),
        labels,
        run.facts(),
        run.result(),
        run.measures(),
        run.causes(),
        run.instruments(),
        run.key());
  }

  String url(String path) {
    return screen.url(path);
  }

  /** The answer of an address, as a browser asks for it; what leads elsewhere is not followed. */
  HttpResponse<byte[]> get(String path) throws Exception {
    return client.send(request(path).build(), HttpResponse.BodyHandlers.ofByteArray());
  }

  HttpRequest.Builder request(String path) {
    return HttpRequest.newBuilder(URI.create(url(path)))
        .timeout(Duration.ofMinutes(2))
        .header("Accept", "text/html");
  }

  HttpResponse<byte[]> post(HttpRequest.Builder request, String form) throws Exception {
    return client.send(
        request
            .header("Content-Type", "application/x-www-form-urlencoded")
            .POST(HttpRequest.BodyPublishers.ofString(form))
            .build(),
        HttpResponse.BodyHandlers.ofByteArray());
  }

  /** The text of a page that is there. */
  String page(String path) throws Exception {
    HttpResponse<byte[]> answer = get(path);
    if (answer.statusCode() != 200) {
      throw new AssertionError(path + ": " + answer.statusCode() + " " + text(answer));
    }
    return text(answer);
  }

  static String text(HttpResponse<byte[]> answer) {
    return new String(answer.body(), StandardCharsets.UTF_8);
  }

  @Override
  public void close() {
    if (screen != null) {
      screen.close();
    }
    desk.close();
    archive.close();
  }
}
