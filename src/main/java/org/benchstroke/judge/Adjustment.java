package org.benchstroke.judge;

import java.time.Instant;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import java.util.function.Predicate;
import java.util.stream.Stream;
import org.benchstroke.record.Entry;
import org.benchstroke.record.Event;
import org.benchstroke.record.Label;
import org.benchstroke.unit.UnitTypeReader;

/**
 * A unit as it was found and as it was left after somebody adjusted it: two whole runs, of which
 * neither is changed by the other. Immutable.
 *
 * @param asFound the run before anything was touched
 * @param asLeft the run after it
 * @param done what was adjusted, in the words of who did it; may be empty
 */
public record Adjustment(JudgedRun asFound, JudgedRun asLeft, String done) {

  /**
   * One thing in both runs.
   *
   * @param asFound empty if that run has nothing of it
   * @param asLeft likewise
   */
  public record Pair<T>(Optional<T> asFound, Optional<T> asLeft) {
    /** Either of them, the later one first. */
    public T any() {
      return asLeft.or(() -> asFound).orElseThrow();
    }
  }

  /** Why the two can't be told as one story, a sentence each; empty if they can. */
  public static List<String> obstacles(JudgedRun asFound, JudgedRun asLeft) {
    List<String> obstacles = new ArrayList<>();
    unfit("as found", asFound).ifPresent(obstacles::add);
    unfit("as left", asLeft).ifPresent(obstacles::add);
    String serial = asFound.record().label(Label.SERIAL);
    String other = asLeft.record().label(Label.SERIAL);
    if (serial.isBlank() || !serial.equals(other)) {
      obstacles.add(
          "not of one unit: serial number \"" + serial + "\" as found, \"" + other + "\" as left");
    }
    if (!asFound.unit().name().equals(asLeft.unit().name())) {
      obstacles.add(
          "not of one unit type: \""
              + asFound.unit().name()
              + "\" as found, \""
              + asLeft.unit().name()
              + "\" as left");
    }
    if (asFound.simulated() != asLeft.simulated()) {
      obstacles.add("one is of a simulated unit, the other is not");
    }
    if (!before(asFound, asLeft)) {
      obstacles.add(
          "as found ended at "
              + ended(asFound)
              + ", not before as left began at "
              + began(asLeft)
              + "; name them the other way round?");
    }
    return obstacles;
  }

  /** The time of a simulated bench may run faster than the wall's: then its end tells nothing. */
  private static boolean before(JudgedRun asFound, JudgedRun asLeft) {
    Instant last = asFound.simulated() ? began(asFound) : ended(asFound);
    return last.isBefore(began(asLeft));
  }

  private static Optional<String> unfit(String which, JudgedRun run) {
    List<String> flaws = run.record().flaws();
    if (!flaws.isEmpty()) {
      return Optional.of(which + ": the record is not as it was written: " + flaws.get(0));
    }
    if (run.record().closed().isEmpty()) {
      return Optional.of(which + ": the record has no closing line: the run was interrupted");
    }
    return run.imported().map(Event.Imported::dated).orElse(true)
        ? Optional.empty()
        : Optional.of(which + ": it does not say when it was recorded");
  }

  private static Instant began(JudgedRun run) {
    return run.record().entries().get(0).utc();
  }

  private static Instant ended(JudgedRun run) {
    List<Entry> entries = run.record().entries();
    return entries.get(entries.size() - 1).utc();
  }

  /** How many of one unit passed at the first go: 0 or 1. */
  public int firstPasses() {
    return asFound.passed() ? 1 : 0;
  }

  /** Whether both were judged by the same unit type file, limits included. */
  public boolean sameUnitTypeFile() {
    return unitTypeText(asFound).equals(unitTypeText(asLeft));
  }

  private static String unitTypeText(JudgedRun run) {
    return run.record().opened().files().stream()
        .filter(file -> file.kind().equals(UnitTypeReader.KIND))
        .map(Event.SourceFile::text)
        .findFirst()
        .orElse("");
  }

  /** The measures that have a limit in either run. */
  public List<Pair<Judgement>> measures() {
    Function<Judgement, List<Object>> coarse =
        j -> List.of(j.measure().kind(), j.measure().truth());
    Predicate<Judgement> alone =
        j ->
            Stream.of(asFound, asLeft)
                .allMatch(
                    run ->
                        run.judgements().stream()
                                .filter(o -> coarse.apply(o).equals(coarse.apply(j)))
                                .count()
                            <= 1);
    // The place of a largest value may be another one after the adjustment.
    Function<Judgement, Object> key =
        j -> alone.test(j) ? coarse.apply(j) : Arrays.asList(coarse.apply(j), j.measure().place());
    return pairs(asFound.judgements(), asLeft.judgements(), key).stream()
        .filter(Adjustment::limited)
        .toList();
  }

  private static boolean limited(Pair<Judgement> pair) {
    return Stream.of(pair.asFound(), pair.asLeft())
        .flatMap(Optional::stream)
        .anyMatch(judgement -> judgement.limit().isPresent());
  }

  /** What is as ordered and what isn't. */
  public List<Pair<AsOrdered>> orders() {
    return pairs(asFound.orders(), asLeft.orders(), AsOrdered::what);
  }

  private static <T> List<Pair<T>> pairs(List<T> before, List<T> after, Function<T, Object> keyOf) {
    Map<Object, Pair<T>> pairs = new LinkedHashMap<>();
    for (T each : before) {
      pairs.putIfAbsent(keyOf.apply(each), new Pair<>(Optional.of(each), Optional.empty()));
    }
    for (T each : after) {
      pairs.merge(
          keyOf.apply(each),
          new Pair<>(Optional.empty(), Optional.of(each)),
          (one, other) -> new Pair<>(one.asFound(), other.asLeft()));
    }
    return List.copyOf(pairs.values());
  }
}
