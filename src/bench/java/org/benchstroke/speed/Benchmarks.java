package org.benchstroke.speed;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import org.benchstroke.counts.ConfusionTable;
import org.benchstroke.counts.FaultyUnits;
import org.benchstroke.counts.TwinRecovery;

/** All the benchmarks, or those that are named. Prints tables; exits 2 at an unknown name. */
public final class Benchmarks {
  private interface Benchmark {
    void run() throws Exception;
  }

  private Benchmarks() {}

  public static void main(String[] names) throws Exception {
    Path folder = Files.createTempDirectory("benchmarks");
    PollingSpeed polling = new PollingSpeed(folder);
    Map<String, Benchmark> all = new LinkedHashMap<>();
    all.put("tcp", polling::tcp);
    all.put("rtu", polling::rtu);
    all.put("paced", polling::paced);
    all.put("memory", polling::memory);
    all.put("stations", polling::stations);
    all.put("model", ModelSpeed::run);
    all.put("acceptance", new AcceptanceSpeed()::run);
    all.put("confusion", ConfusionTable::run);
    all.put("faulty", FaultyUnits::run);
    all.put("analysis", new AnalysisSpeed(folder)::run);
    all.put("judge", new JudgeSpeed(folder)::run);
    all.put("twin", TwinRecovery::run);
    List<String> wanted = names.length == 0 ? List.copyOf(all.keySet()) : List.of(names);
    if (!all.keySet().containsAll(wanted)) {
      System.out.println("the benchmarks are " + String.join(", ", all.keySet()));
      System.exit(2);
    }
    try {
      for (String name : wanted) {
        all.get(name).run();
      }
    } finally {
      delete(folder);
    }
    // The other libraries leave threads behind.
    System.exit(0);
  }

  private static void delete(Path folder) throws IOException {
    try (Stream<Path> files = Files.walk(folder)) {
      for (Path file : files.sorted(Comparator.reverseOrder()).toList()) {
        Files.delete(file);
      }
    }
  }
}
