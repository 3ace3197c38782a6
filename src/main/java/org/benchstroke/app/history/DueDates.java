package org.benchstroke.app.history;

import java.time.LocalDate;
import java.time.format.DateTimeParseException;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import org.benchstroke.archive.Archive;
import org.benchstroke.archive.ArchiveFault;
import org.benchstroke.archive.RunFilter;
import org.benchstroke.archive.ShopHistory;
import org.benchstroke.archive.ShopHistory.OnBench;
import org.benchstroke.bench.BenchFile;
import org.benchstroke.bench.InstrumentSpec;
import org.benchstroke.io.instrument.Role;

/** Whose calibration falls due, and when. Stateless. */
public final class DueDates {
  private DueDates() {}

  /**
   * An instrument of a bench. Immutable.
   *
   * @param bench the bench's name
   * @param name its own on that bench
   * @param roles what it plays, by their keys
   * @param identity maker and model
   * @param serial its serial number
   * @param certificate number of its calibration certificate
   * @param due the last day on which it may be used; empty if that is not readable as a day
   */
  public record Line(
      String bench,
      String name,
      String roles,
      String identity,
      String serial,
      String certificate,
      Optional<LocalDate> due) {
    /** What is not readable as a day comes first: somebody must look at it. */
    private LocalDate order() {
      return due.orElse(LocalDate.MIN);
    }

    /** How many days are left, below 0 where it is overdue; empty if nobody knows. */
    public Optional<Long> days(LocalDate today) {
      return due.map(day -> ChronoUnit.DAYS.between(today, day));
    }

    /** Whether it must not be used any more. */
    public boolean overdue(LocalDate today) {
      return due.map(day -> day.isBefore(today)).orElse(false);
    }
  }

  /** All instruments of a bench file, in its order. */
  public static List<Line> of(BenchFile bench) {
    return bench.instruments().stream().map(each -> line(bench.name(), each)).toList();
  }

  private static Line line(String bench, InstrumentSpec spec) {
    return new Line(
        bench,
        spec.name(),
        spec.roles().stream().map(Role::key).collect(Collectors.joining(", ")),
        (spec.maker() + " " + spec.model()).strip(),
        spec.serial(),
        spec.calibration().certificate(),
        Optional.of(spec.calibration().due()));
  }

  /** Of each real bench of an archive, by its newest run: a line for an instrument. */
  public static List<Line> of(Archive archive) throws ArchiveFault {
    Map<List<String>, List<OnBench>> boxes = new LinkedHashMap<>();
    for (OnBench each : new ShopHistory(archive, RunFilter.ALL, false).instruments()) {
      List<String> box =
          List.of(each.bench(), each.instrument().name(), each.instrument().serial());
      boxes.computeIfAbsent(box, b -> new ArrayList<>()).add(each);
    }
    return boxes.values().stream().map(DueDates::line).toList();
  }

  private static Line line(List<OnBench> roles) {
    OnBench one = roles.get(0);
    return new Line(
        one.bench(),
        one.instrument().name(),
        roles.stream().map(r -> r.instrument().role()).collect(Collectors.joining(", ")),
        (one.instrument().maker() + " " + one.instrument().model()).strip(),
        one.instrument().serial(),
        one.instrument().certificate(),
        day(one.instrument().due()));
  }

  private static Optional<LocalDate> day(String text) {
    try {
      return Optional.of(LocalDate.parse(text));
    } catch (DateTimeParseException e) {
      return Optional.empty();
    }
  }

  /** Those due in the next so many days, the most urgent first. */
  public static List<Line> soon(List<Line> all, LocalDate today, int days) {
    return all.stream()
        .filter(line -> !line.order().isAfter(today.plusDays(days)))
        .sorted(Comparator.comparing(Line::order).thenComparing(Line::bench))
        .toList();
  }
}
