package org.benchstroke.counts;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.Callable;
import java.util.stream.Collectors;
import org.benchstroke.aids.diagnosis.Cause;
import org.benchstroke.aids.diagnosis.Evidence;
import org.benchstroke.aids.diagnosis.Sign;
import org.benchstroke.aids.diagnosis.Symptoms;
import org.benchstroke.core.toml.FileMistakes;
import org.benchstroke.counts.DrawnSets.Drawn;
import org.benchstroke.counts.DrawnSets.Lacks;
import org.benchstroke.simulator.practice.DrawnUnits;

/** Runs drawn units; what each showed stands in a file at once, so that no count is lost. */
final class Counted {
  private final Path file;
  private final Map<String, Symptoms> known = new HashMap<>();

  /** What a drawn unit showed. */
  record Seen(Drawn drawn, Symptoms showing) {}

  Counted(Path file, boolean resume) throws IOException {
    this.file = file;
    if (!resume) {
      Files.deleteIfExists(file);
    } else if (Files.exists(file)) {
      Files.readAllLines(file).forEach(this::read);
    }
  }

  /** Those that stand in the file already. */
  List<Drawn> known(List<Drawn> units) {
    return units.stream().filter(u -> known.containsKey(u.id())).toList();
  }

  List<Seen> all(List<Drawn> units) throws Exception {
    Map<Lacks, DrawnUnits> benches = new EnumMap<>(Lacks.class);
    for (Lacks lacks : Lacks.values()) {
      benches.put(lacks, bench(lacks));
    }
    List<Callable<Seen>> runs = new ArrayList<>();
    for (Drawn drawn : units) {
      runs.add(() -> seen(drawn, benches.get(drawn.lacks())));
    }
    return Work.all("confusion", runs);
  }

  private static DrawnUnits bench(Lacks lacks) throws FileMistakes {
    return DrawnUnits.of(Path.of("demo-data"), "fault-finding").without(lacks.instruments());
  }

  private Seen seen(Drawn drawn, DrawnUnits units) throws IOException {
    Symptoms before = known.get(drawn.id());
    if (before != null) {
      return new Seen(drawn, before);
    }
    Symptoms showing = Symptoms.of(units.judge(drawn.faults(), drawn.seed()));
    write(drawn, showing);
    return new Seen(drawn, showing);
  }

  private synchronized void write(Drawn drawn, Symptoms showing) throws IOException {
    String signs =
        showing.evidence().stream()
            .map(e -> e.sign() + (e.seen() ? "+" : "-"))
            .collect(Collectors.joining(","));
    String denied =
        showing.denied().keySet().stream().map(Cause::name).collect(Collectors.joining(","));
    Files.writeString(
        file,
        drawn.id() + ";" + showing.passed() + ";" + denied + ";" + signs + "\n",
        StandardOpenOption.CREATE,
        StandardOpenOption.APPEND);
  }

  private void read(String line) {
    String[] cells = line.split(";", -1);
    if (cells.length != 4) {
      return; // torn when the count was stopped
    }
    Map<Cause, String> denied = new EnumMap<>(Cause.class);
    for (String cause : cells[2].isEmpty() ? new String[0] : cells[2].split(",")) {
      denied.put(Cause.valueOf(cause), "");
    }
    List<Evidence> evidence = new ArrayList<>();
    for (String sign : cells[3].isEmpty() ? new String[0] : cells[3].split(",")) {
      Sign which = Sign.valueOf(sign.substring(0, sign.length() - 1));
      evidence.add(new Evidence(which, sign.endsWith("+"), ""));
    }
    known.put(cells[0], new Symptoms(evidence, denied, Boolean.parseBoolean(cells[1])));
  }
}
