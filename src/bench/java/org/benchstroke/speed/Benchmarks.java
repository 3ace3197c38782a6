package org.benchstroke.speed;

import java.io.IOException;
import java.lang.management.ManagementFactory;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.stream.Stream;
import org.benchstroke.counts.ConfusionTable;
import org.benchstroke.counts.FaultyUnits;
import org.benchstroke.counts.TwinRecovery;

/**
 * All the benchmarks, or those that are named. Prints tables, and first of which commit and on what
 * machine they are; exits 2 at an unknown name.
 */
public final class Benchmarks {
  /** Prints its figures; throws where what must agree doesn't. */
  interface Benchmark {
    void run(Extent extent) throws Exception;
  }

  private Benchmarks() {}

  /** By their names, in the order in which they are run. */
  static Map<String, Benchmark> all(Path folder) {
    PollingSpeed polling = new PollingSpeed(folder);
    Map<String, Benchmark> all = new LinkedHashMap<>();
    all.put("tcp", polling::tcp);
    all.put("rtu", polling::rtu);
    all.put("paced", polling::paced);
    all.put("memory", polling::memory);
    all.put("stations", polling::stations);
    ScreenSpeed screen = new ScreenSpeed(folder);
    all.put("screen", screen::latency);
    all.put("screen-stations", polling::screen);
    all.put("screen-memory", screen::memory);
    all.put("model", ModelSpeed::run);
    all.put("acceptance", new AcceptanceSpeed()::run);
    all.put("confusion", extent -> ConfusionTable.run(folder, extent.of(Integer.MAX_VALUE, 1)));
    all.put("faulty", extent -> FaultyUnits.run(extent.of(FaultyUnits.asked(), 2)));
    all.put("analysis", new AnalysisSpeed(folder)::run);
    all.put("judge", new JudgeSpeed(folder)::run);
    all.put("papers", new PapersSpeed(folder)::run);
    all.put("twin", Benchmarks::twin);
    ArchiveSpeed archive = new ArchiveSpeed(folder);
    all.put("archive", archive::inFile);
    all.put("archive-server", archive::onServer);
    all.put("archive-many", archive::many);
    all.put("archive-rebuild", archive::rebuild);
    return all;
  }

  private static void twin(Extent extent) throws Exception {
    if (extent == Extent.SHORT) {
      TwinRecovery.one();
    } else {
      TwinRecovery.run(TwinRecovery.asked());
    }
  }

  public static void main(String[] names) throws Exception {
    Path folder = Files.createTempDirectory("benchmarks");
    Map<String, Benchmark> all = all(folder);
    List<String> wanted = names.length == 0 ? List.copyOf(all.keySet()) : List.of(names);
    if (!all.keySet().containsAll(wanted)) {
      System.out.println("the benchmarks are " + String.join(", ", all.keySet()));
      System.exit(2);
    }
    System.out.println(circumstances());
    try {
      for (String name : wanted) {
        all.get(name).run(Extent.WHOLE);
      }
    } finally {
      delete(folder);
    }
    System.out.println(circumstances());
    // The other libraries leave threads behind.
    System.exit(0);
  }

  /** What figures must be told with: of which commit, on what, and how busy it was. */
  private static String circumstances() throws IOException, InterruptedException {
    return String.format(
        Locale.ROOT,
        "Commit %s, Java %s, %d cores, load %.1f",
        commit(),
        Runtime.version(),
        Runtime.getRuntime().availableProcessors(),
        ManagementFactory.getOperatingSystemMXBean().getSystemLoadAverage());
  }

  private static String commit() throws IOException, InterruptedException {
    Process git =
        new ProcessBuilder("git", "describe", "--always", "--dirty=, with changes")
            .redirectError(ProcessBuilder.Redirect.DISCARD)
            .start();
    String said = new String(git.getInputStream().readAllBytes(), StandardCharsets.UTF_8).strip();
    return git.waitFor() == 0 ? said : "unknown";
  }

  private static void delete(Path folder) throws IOException {
    try (Stream<Path> files = Files.walk(folder)) {
      for (Path file : files.sorted(Comparator.reverseOrder()).toList()) {
        Files.delete(file);
      }
    }
  }
}
