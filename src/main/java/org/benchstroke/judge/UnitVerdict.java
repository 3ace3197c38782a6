package org.benchstroke.judge;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.benchstroke.bench.BenchFile;
import org.benchstroke.judge.AsOrdered.Subject;
import org.benchstroke.record.Event;
import org.benchstroke.record.RunRecord;
import org.benchstroke.unit.UnitType;

/**
 * The word for the whole unit. A pass needs a whole, sound run in which every limit and every order
 * has its pass; a fail that was measured stands even in a run that wasn't whole.
 *
 * @param word the word
 * @param reason why, in a sentence
 * @param complete whether the run was whole and valid
 */
record UnitVerdict(Word word, String reason, boolean complete) {
  private static final int MOST_NAMED = 3;

  private static final String READINGS =
      " Of the readings taken: each point was met once, so how the unit scatters is not in U.";

  static UnitVerdict of(
      RunRecord record,
      BenchFile bench,
      UnitType unit,
      List<TestSummary> tests,
      List<Judgement> judgements,
      List<AsOrdered> orders,
      Scope scope) {
    Optional<String> lacking =
        new SimulationSigns(record, bench)
            .contradiction()
            .map(what -> "the record contradicts itself: " + what)
            .or(() -> unordered(record))
            .or(() -> lacking(record, tests));
    List<String> failed = named(Word.FAIL, judgements, orders);
    if (record.closed().map(c -> c.how().equals("action reversed")).orElse(false)
        && !failed.contains(Subject.ACTION.words())) {
      failed.add(Subject.ACTION.words());
    }
    List<String> missing = named(Word.NO_RESULT, judgements, orders);
    boolean complete = lacking.isEmpty();
    if (!failed.isEmpty()) {
      String also = lacking.map(l -> " In addition, " + shortly(record, l) + ".").orElse("");
      String without = missing.isEmpty() ? "" : " " + withoutResult(missing);
      return new UnitVerdict(
          Word.FAIL, "Not met: " + list(failed) + "." + also + without, complete);
    }
    if (lacking.isPresent()) {
      return new UnitVerdict(Word.NO_RESULT, "Not judged: " + lacking.get() + ".", false);
    }
    if (unit.limits().isEmpty()) {
      return new UnitVerdict(Word.NO_RESULT, "Not judged: the unit type states no limits.", true);
    }
    if (!missing.isEmpty()) {
      return new UnitVerdict(Word.NO_RESULT, "Could not be judged: " + list(missing) + ".", true);
    }
    UnitVerdict whole = passedOrConditional(judgements, orders);
    return scope == Scope.UNIT
        ? whole
        : new UnitVerdict(whole.word(), whole.reason() + READINGS, whole.complete());
  }

  private static UnitVerdict passedOrConditional(
      List<Judgement> judgements, List<AsOrdered> orders) {
    List<String> beyond = named(Word.CONDITIONAL_FAIL, judgements, orders);
    if (!beyond.isEmpty()) {
      String reason = "Beyond the limit, but by less than the guard band: " + list(beyond) + ".";
      return new UnitVerdict(Word.CONDITIONAL_FAIL, reason, true);
    }
    List<String> within = named(Word.CONDITIONAL_PASS, judgements, orders);
    if (!within.isEmpty()) {
      String reason = "Within the limit, but by less than the guard band: " + list(within) + ".";
      return new UnitVerdict(Word.CONDITIONAL_PASS, reason, true);
    }
    boolean lost = orders.stream().anyMatch(o -> o.isOf(Subject.SIGNAL_LOSS));
    String reason =
        lost
            ? "Every limit and every order is met."
            : "Every limit and every order that was tested is met; loss of the signal was not"
                + " tested.";
    return new UnitVerdict(Word.PASS, reason, true);
  }

  /** A file of others shows what it shows: what is missing from it, only an order tells. */
  private static Optional<String> unordered(RunRecord record) {
    Optional<Event.Imported> imported = record.events(Event.Imported.class).findFirst();
    if (imported.isEmpty()) {
      return Optional.empty();
    }
    List<String> missing = new ArrayList<>();
    if (record.opened().serial().isBlank()) {
      missing.add("no serial number of the unit (--serial)");
    }
    if (!imported.get().ordered()) {
      missing.add("no procedure that says what the file must show (--procedure)");
    }
    return missing.isEmpty()
        ? damaged(record)
        : Optional.of("no order was given: " + String.join(", ", missing));
  }

  /** Damage within a test voids the test; elsewhere in the file it may hide as much. */
  private static Optional<String> damaged(RunRecord record) {
    return Lines.betweenTests(record).all(Event.Faulted.class).stream()
        .findFirst()
        .map(fault -> "the file is damaged, " + fault.fault() + ": " + fault.detail());
  }

  /** Why the run is not whole and valid; empty if it is. */
  private static Optional<String> lacking(RunRecord record, List<TestSummary> tests) {
    if (!record.doubts().isEmpty()) {
      return Optional.of(String.join("; ", record.doubts()));
    }
    if (!record.flaws().isEmpty()) {
      return Optional.of("the record is not sound: " + String.join(", ", record.flaws()));
    }
    if (record.closed().isEmpty()) {
      return Optional.of("the run was interrupted: the record has no end line");
    }
    Event.Closed closed = record.closed().get();
    if (!closed.how().equals("complete")) {
      String reason = closed.reason().isEmpty() ? "" : ": " + closed.reason();
      return Optional.of("the run ended early, \"" + closed.how() + "\"" + reason);
    }
    return blocked(record).or(() -> notComplete(tests));
  }

  /** A run that went on although its preflight said no. */
  private static Optional<String> blocked(RunRecord record) {
    Optional<String> check =
        record
            .events(Event.Checked.class)
            .filter(c -> c.outcome().equals("blocks"))
            .map(c -> "the preflight's " + c.check() + " blocks: " + c.detail())
            .findFirst();
    return check.or(
        () ->
            record
                .events(Event.Identified.class)
                .filter(i -> !i.matches() && !i.found().isEmpty())
                .map(i -> i.instrument() + " is " + i.found() + ", not " + i.expected())
                .findFirst());
  }

  private static Optional<String> notComplete(List<TestSummary> tests) {
    if (tests.isEmpty()) {
      return Optional.of("the procedure has no tests");
    }
    return tests.stream()
        .filter(t -> !t.complete())
        .map(
            t ->
                "test \""
                    + t.name()
                    + "\" is "
                    + t.outcome()
                    + (t.reason().isEmpty() ? "" : " (" + t.reason() + ")"))
        .findFirst();
  }

  /** What has this word: each measure once, with its first places. */
  private static List<String> named(Word word, List<Judgement> judgements, List<AsOrdered> orders) {
    Map<String, List<Location>> places = new LinkedHashMap<>();
    for (Judgement judgement : judgements) {
      if (judgement.word().equals(Optional.of(word))) {
        Measure measure = judgement.measure();
        places.computeIfAbsent(measure.title(), title -> new ArrayList<>()).add(measure.place());
      }
    }
    List<String> names = new ArrayList<>();
    places.forEach((title, at) -> names.add(title + at(at)));
    orders.stream().filter(o -> o.word() == word).map(AsOrdered::what).forEach(names::add);
    return names;
  }

  private static String at(List<Location> places) {
    String first = places.get(0).behind();
    String two = places.size() > 1 ? first + ", " + places.get(1).words() : first;
    return places.size() > 2 ? two + " and " + (places.size() - 2) + " more" : two;
  }

  /** How it ended is told at length by whoever shows the end of the run. */
  private static String shortly(RunRecord record, String lacking) {
    boolean early = record.closed().filter(c -> !c.how().equals("complete")).isPresent();
    return early ? "the run ended early" : lacking;
  }

  private static String withoutResult(List<String> missing) {
    return missing.size() == 1
        ? missing.get(0) + " could not be judged."
        : missing.size() + " others could not be judged.";
  }

  /** The first few: the rest stands in the tables, and a headline is read at a glance. */
  private static String list(List<String> names) {
    int more = names.size() - MOST_NAMED;
    return more <= 1
        ? String.join("; ", names)
        : String.join("; ", names.subList(0, MOST_NAMED)) + "; and " + more + " more";
  }
}
