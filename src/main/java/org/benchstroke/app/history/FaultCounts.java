package org.benchstroke.app.history;

import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Stream;
import org.benchstroke.aids.diagnosis.Cause;
import org.benchstroke.archive.ArchiveFault;
import org.benchstroke.archive.ShopHistory;
import org.benchstroke.core.statistics.Pareto;
import org.benchstroke.papers.HistoryPlots;
import org.benchstroke.papers.plot.Drawing;
import org.benchstroke.unit.MeasureKind;

/**
 * What was wrong with units as found, by how often. Immutable.
 *
 * @param of what is counted
 * @param pareto the counts, by the keys of causes or of measures
 * @param jobs of how many jobs
 */
public record FaultCounts(Of of, Pareto<String> pareto, int jobs) {
  /** What is counted. */
  public enum Of {
    /** The likely causes that the diagnosis named, each once for a job. */
    CAUSES("Likely causes", "likely cause"),
    /** The measures that failed, each once for a job. */
    MEASURES("Measures that failed", "measure");

    private final String title;
    private final String one;

    Of(String title, String one) {
      this.title = title;
      this.one = one;
    }

    public String title() {
      return title;
    }

    /** One of them. */
    public String one() {
      return one;
    }

    /** As it is typed. */
    public String key() {
      return name().toLowerCase(Locale.ROOT);
    }
  }

  /** Counts. */
  public static FaultCounts of(ShopHistory history, Of of) throws ArchiveFault {
    List<String> seen = of == Of.MEASURES ? history.failedAsFound() : causes(history);
    return new FaultCounts(of, Pareto.of(seen), history.asFound().size());
  }

  /** That nothing is wrong is no cause. */
  private static List<String> causes(ShopHistory history) throws ArchiveFault {
    String healthy = Cause.HEALTHY.name().toLowerCase(Locale.ROOT);
    return history.causesAsFound().stream().filter(cause -> !cause.equals(healthy)).toList();
  }

  /** The name of what has this key; a key that this version does not know stays as it is. */
  public String name(String key) {
    if (of == Of.MEASURES) {
      return MeasureKind.ofKey(key).map(MeasureKind::title).orElse(key);
    }
    return Stream.of(Cause.values())
        .filter(cause -> cause.name().toLowerCase(Locale.ROOT).equals(key))
        .map(Cause::title)
        .findFirst()
        .orElse(key);
  }

  /** Their picture; empty if nothing was seen. */
  public Optional<Drawing> drawing(ChosenRuns runs) {
    if (pareto.rows().isEmpty()) {
      return Optional.empty();
    }
    String title = of.title() + " as found, " + runs.words();
    HistoryPlots.Subject subject = new HistoryPlots.Subject("causes", title, "units, number");
    return Optional.of(HistoryPlots.pareto(subject, pareto, this::name));
  }
}
