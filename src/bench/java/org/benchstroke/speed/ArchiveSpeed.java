package org.benchstroke.speed;

import java.lang.management.ManagementFactory;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Random;
import java.util.Set;
import java.util.function.IntFunction;
import java.util.stream.IntStream;
import org.benchstroke.acceptance.VirtualBench;
import org.benchstroke.aids.diagnosis.TwinAndCauses;
import org.benchstroke.archive.Archive;
import org.benchstroke.archive.ArchiveFault;
import org.benchstroke.archive.ArchivePlace;
import org.benchstroke.archive.MadeUpRuns;
import org.benchstroke.archive.Postgres;
import org.benchstroke.archive.Rebuild;
import org.benchstroke.archive.RunFilter;
import org.benchstroke.archive.ShopHistory;
import org.benchstroke.core.files.WholeFile;
import org.benchstroke.papers.JsonReport;
import org.benchstroke.record.Entry;
import org.benchstroke.record.Event;
import org.benchstroke.record.JudgementSeal;
import org.benchstroke.record.RecordReader;
import org.benchstroke.record.RecordWriter;
import org.benchstroke.record.RunRecord;
import org.benchstroke.record.SealFile;
import org.benchstroke.record.signing.BenchKey;
import org.benchstroke.record.signing.BenchKeys;
import org.benchstroke.tests.RecordedRun;

/** The archive: filled, asked, and made again from records. */
final class ArchiveSpeed {
  private static final int MEASURES = 10;
  private static final int BATCH = 1000;
  private static final Path ROUTINE = Path.of("demo-data/procedures/routine-acceptance.toml");

  private final Path folder;

  ArchiveSpeed(Path folder) {
    this.folder = folder;
  }

  /** A question, asked with another number each time. */
  private interface Question {
    int answered(int number) throws ArchiveFault;
  }

  void inFile(Extent extent) throws Exception {
    for (int runs : extent == Extent.WHOLE ? new int[] {100_000, 1_000_000} : new int[] {600}) {
      Path file = folder.resolve("archive" + runs + ".sqlite");
      asked(new ArchivePlace.InFile(file), runs, extent);
      System.out.printf(Locale.ROOT, "%.0f MB%n", Files.size(file) / 1e6);
      Files.delete(file);
    }
  }

  void onServer(Extent extent) throws Exception {
    Postgres server = Postgres.start();
    try {
      asked(server.database(), extent.of(100_000, 600), extent);
    } finally {
      server.close();
    }
  }

  /** Ten million runs in months, on a server. */
  void many(Extent extent) throws Exception {
    Postgres server = Postgres.start();
    try {
      ArchivePlace.OnServer place = server.database();
      int runs = extent.of(10_000_000, 9000);
      System.out.printf(Locale.ROOT, "%n%s: %d runs in 120 months%n", place, runs);
      ManyRuns many = new ManyRuns(place, runs);
      try (Archive archive = Archive.open(place)) {
        many.fill(archive);
        manyAsked(archive, many, runs, extent);
      }
    } finally {
      server.close();
    }
  }

  private static void manyAsked(Archive archive, ManyRuns many, int runs, Extent extent)
      throws ArchiveFault {
    int rounds = extent.of(50, 1);
    IntFunction<RunFilter> serial =
        n -> RunFilter.ofSerial("MANY-" + new Random(n).nextInt(runs) / 3 * 2);
    timed("search by serial", rounds, n -> archive.runs(serial.apply(n), 50).size());
    timed("jobs of a serial", rounds, n -> archive.jobs(serial.apply(n), 50).size());
    Instant end = many.begun(runs);
    RunFilter day = RunFilter.between(end.minus(Duration.ofDays(1)), end);
    RunFilter month = RunFilter.between(end.minus(Duration.ofDays(30)), end);
    RunFilter year = RunFilter.between(end.minus(Duration.ofDays(365)), end);
    timed("list of a day", rounds, n -> archive.runs(day, 5000).size());
    timed("jobs of a day", extent.of(10, 1), n -> archive.jobs(day, 1000).size());
    timed("yield by type, a month", extent.of(5, 1), n -> archive.yields(month).size());
    timed("yield by type, a year", extent.of(3, 1), n -> archive.yields(year).size());
    ShopHistory lately = new ShopHistory(archive, month, false);
    timed("a measure of a month", extent.of(3, 1), n -> lately.measured("dead_band_pct").size());
    timed("causes as found of a month", extent.of(3, 1), n -> lately.causesAsFound().size());
    plans(archive, serial.apply(1), day, year);
  }

  private static void plans(Archive archive, RunFilter serial, RunFilter day, RunFilter years)
      throws ArchiveFault {
    archive
        .plans(serial, day, years)
        .forEach((name, lines) -> System.out.println(name + "\n  " + String.join("\n  ", lines)));
  }

  private static void asked(ArchivePlace place, int runs, Extent extent) throws ArchiveFault {
    System.out.printf(Locale.ROOT, "%n%s: %d runs, %d measures each%n", place, runs, MEASURES);
    MadeUpRuns made = new MadeUpRuns(MEASURES);
    try (Archive archive = Archive.open(place)) {
      long cpu = cpu();
      long begin = System.nanoTime();
      for (int from = 0; from < runs; from += BATCH) {
        int to = Math.min(runs, from + BATCH);
        archive.addAll(IntStream.range(from, to).mapToObj(made::run).toList(), false);
      }
      archive.analyse();
      System.out.printf(
          Locale.ROOT,
          "filled in %.1f s, %.1f s of the processor%n",
          (System.nanoTime() - begin) / 1e9,
          (cpu() - cpu) / 1e9);
      if (archive.count() != runs) {
        throw new IllegalStateException("not all runs are there");
      }
      questions(archive, runs, extent);
      RunFilter day = day(runs);
      RunFilter years = RunFilter.between(Instant.EPOCH, MadeUpRuns.begun(runs));
      plans(archive, RunFilter.ofSerial(MadeUpRuns.serial(runs / 2)), day, years);
    }
  }

  /** The last whole day. */
  private static RunFilter day(int runs) {
    Instant last = MadeUpRuns.begun(runs);
    return RunFilter.between(last.minus(Duration.ofDays(1)), last);
  }

  private static void questions(Archive archive, int runs, Extent extent) throws ArchiveFault {
    int rounds = extent.of(200, 2);
    timed("search by serial", rounds, n -> archive.runs(serial(n, runs), 50).size());
    timed("jobs of a serial", rounds, n -> archive.jobs(serial(n, runs), 50).size());
    RunFilter day = day(runs);
    timed("list of a day", rounds, n -> archive.runs(day, 1000).size());
    timed("jobs of a day", rounds / 2, n -> archive.jobs(day, 1000).size());
    Instant end = MadeUpRuns.begun(runs);
    RunFilter year = RunFilter.between(end.minus(Duration.ofDays(365)), end);
    timed("yield by type, a year", extent.of(5, 1), n -> archive.yields(year).size());
    timed("yield by type, all", extent.of(3, 1), n -> archive.yields(RunFilter.ALL).size());
    timed(
        "search by serial, archive opened anew",
        extent.of(20, 1),
        n -> {
          try (Archive anew = Archive.existing(archive.place())) {
            return anew.runs(serial(n, runs), 50).size();
          }
        });
  }

  private static RunFilter serial(int number, int runs) {
    return RunFilter.ofSerial(MadeUpRuns.serial(new Random(number).nextInt(runs)));
  }

  private static void timed(String name, int rounds, Question question) throws ArchiveFault {
    double[] millis = new double[rounds];
    int answers = 0;
    for (int i = 0; i < rounds; i++) {
      long begin = System.nanoTime();
      int found = question.answered(i);
      millis[i] = (System.nanoTime() - begin) / 1e6;
      if (found == 0) {
        throw new IllegalStateException(name + ": nothing found");
      }
      answers += found;
    }
    Arrays.sort(millis);
    System.out.printf(
        Locale.ROOT,
        "| %s | %.2f ms | %.2f ms | %.1f lines |%n",
        name,
        millis[rounds / 2],
        millis[Math.max(0, rounds * 95 / 100 - 1)],
        (double) answers / rounds);
  }

  /** Records of a routine acceptance, each of another unit, as a run leaves them. */
  void rebuild(Extent extent) throws Exception {
    int count = extent.of(200, 2);
    Path records = Files.createDirectories(folder.resolve("records-of-archive"));
    long bytes = records(records, count, extent);
    System.out.printf(
        Locale.ROOT,
        "%n%d records of a routine acceptance, %.1f MB each%n",
        count,
        bytes / 1e6 / count);
    for (boolean judge : new boolean[] {false, true}) {
      for (int round = 0; round < extent.of(3, 1); round++) {
        ArchivePlace place = ArchivePlace.beside(records);
        long cpu = cpu();
        long begin = System.nanoTime();
        Rebuild.Result result =
            new Rebuild(place, judge, new Rebuild.LetGo(true, Set.of()), (done, all) -> {})
                .from(List.of(records));
        double seconds = (System.nanoTime() - begin) / 1e9;
        if (result.runs() != count || !result.flawed().isEmpty()) {
          throw new IllegalStateException("not all records are sound: " + result.flawed());
        }
        System.out.printf(
            Locale.ROOT,
            "| %s | %.1f s | %.0f records a second | %.0f a second of the processor |%n",
            judge ? "each judged" : "by the judgement beside it",
            seconds,
            count / seconds,
            count / ((cpu() - cpu) / 1e9));
      }
    }
  }

  /** What this thread has worked, ns: other programs count less in it. */
  private static long cpu() {
    return ManagementFactory.getThreadMXBean().getCurrentThreadCpuTime();
  }

  private static long records(Path records, int count, Extent extent) throws Exception {
    BenchKey key = new BenchKeys(records.resolve("keys")).open("");
    VirtualBench bench = VirtualBench.with("healthy-b");
    String routine = Files.readString(ROUTINE);
    String tests = routine.substring(routine.indexOf("[[test]]"));
    RunRecord run = (extent == Extent.WHOLE ? bench.tests(tests) : bench).run();
    long bytes = 0;
    for (int i = 0; i < count; i++) {
      Path file = records.resolve(String.format(Locale.ROOT, "20260601-080000-QT-%04d.jsonl", i));
      RunRecord other = ofUnit(run, i);
      WholeFile.write(file, out -> RecordWriter.write(out, other));
      SealFile.write(file, key);
      String json =
          new JsonReport().json(new TwinAndCauses(RecordedRun.judge(RecordReader.read(file))));
      Path judgement = file.resolveSibling(file.getFileName().toString().replace("jsonl", "json"));
      JudgementSeal.write(file, Files.writeString(judgement, json), key);
      bytes += Files.size(file);
    }
    return bytes;
  }

  /** The same run of another unit, at another time. */
  private static RunRecord ofUnit(RunRecord run, int number) {
    Duration later = Duration.ofMinutes(20L * number);
    List<Entry> entries = new ArrayList<>();
    for (Entry entry : run.entries()) {
      Event event = entry.event();
      if (event instanceof Event.Opened o) {
        event =
            new Event.Opened(
                o.format(),
                o.tool(),
                o.simulated(),
                o.timeScale(),
                "QT-" + number,
                o.operator(),
                o.order(),
                o.utcOffset(),
                o.files());
      }
      entries.add(
          new Entry(entry.number(), entry.nanos(), entry.utc().plus(later), entry.step(), event));
    }
    return new RunRecord(entries, List.of());
  }
}
