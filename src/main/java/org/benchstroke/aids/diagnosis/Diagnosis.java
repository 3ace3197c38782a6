package org.benchstroke.aids.diagnosis;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Supplier;
import java.util.stream.Collectors;
import org.benchstroke.aids.twin.Twin;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.judge.Finding;
import org.benchstroke.judge.JudgedRun;
import org.benchstroke.unit.UnitType;

/**
 * Likely causes of what a run shows, most likely first, with {@link Likelihoods} counted on
 * simulated units. What the bench or the procedure can't show counts neither way; what a measure of
 * the run denies is not named. Immutable.
 *
 * @param evidence every sign that the run could show
 * @param ranked all causes that no measure denies, most likely first, each with how likely it is
 *     there, alone or beside another; none of a unit whose signs nobody has counted
 * @param named those that are named: of each list one is there
 * @param unexplained what was seen and none of the named shows
 * @param whole whether the run came to its end
 * @param passed whether the run passed: a fault may break no limit that was agreed
 * @param outcome what there is to say
 * @param next the test that would tell the first two apart; empty if none would
 * @param advice what to adjust, and by how much; empty where no cause is named
 */
public record Diagnosis(
    List<Evidence> evidence,
    List<RankedCause> ranked,
    List<List<RankedCause>> named,
    List<Evidence> unexplained,
    boolean whole,
    boolean passed,
    Outcome outcome,
    Optional<String> next,
    String advice) {
  private static final Map<Integer, String> COUNTED = Map.of(2, "two", 3, "three", 4, "four");

  /** What there is to say. */
  public enum Outcome {
    /** The record is not closed: what was found must stand before anybody adjusts. */
    NOT_CLOSED,
    /** Nobody has counted the signs of such units. */
    NOT_COUNTED,
    /** The run holds no figures that could tell causes apart. */
    NO_FIGURES,
    /** It passed and showed no sign. */
    NOTHING_STANDS_OUT,
    /** It did not pass, but showed no sign that is much likelier with a fault. */
    UNKNOWN,
    /** It ended early, or too much of it is missing to tell one cause from the others. */
    CANT_TELL,
    /** It passed; something was seen, but no fault is much likelier than a sound unit. */
    TOO_LITTLE,
    /** One cause is likelier than the others. */
    ONE_CAUSE,
    /** Two causes or more are too close to call: one of them is there. */
    TWO_CAUSES,
    /** Two are there at once. */
    BOTH_CAUSES;

    /** Whether causes are named, and something to adjust with them. */
    public boolean namesCauses() {
      return this == ONE_CAUSE || this == TWO_CAUSES || this == BOTH_CAUSES;
    }
  }

  public Diagnosis {
    evidence = List.copyOf(evidence);
    ranked = List.copyOf(ranked);
    named = named.stream().map(List::copyOf).toList();
    unexplained = List.copyOf(unexplained);
  }

  public static Diagnosis of(JudgedRun run) {
    return of(run, Likelihoods.builtIn());
  }

  /** With other likelihoods. */
  public static Diagnosis of(JudgedRun run, Likelihoods likelihoods) {
    return of(run, likelihoods, () -> Twin.of(run));
  }

  /** With a twin, which is asked for at most once, and only where the advice needs it. */
  static Diagnosis of(JudgedRun run, Likelihoods likelihoods, Supplier<Twin> twin) {
    if (run.unit().drive() == UnitType.Drive.PNEUMATIC) {
      return new Diagnosis(
          List.of(),
          List.of(),
          List.of(),
          List.of(),
          true,
          run.passed(),
          Outcome.NOT_COUNTED,
          Optional.empty(),
          "");
    }
    Signs signs = new Signs(run);
    Symptoms symptoms = signs.symptoms();
    Causes causes = Causes.of(symptoms, likelihoods);
    Outcome outcome = outcome(run, causes);
    List<List<RankedCause>> named = outcome.namesCauses() ? causes.named() : List.of();
    return new Diagnosis(
        symptoms.evidence(),
        causes.ranked(),
        named,
        outcome.namesCauses() ? causes.unexplained() : List.of(),
        symptoms.whole(),
        run.passed(),
        outcome,
        next(run, outcome, causes, likelihoods),
        advice(named, new Advice(run, signs, twin)));
  }

  /** Of causes that can't be told apart none is adjusted before they can. */
  private static String advice(List<List<RankedCause>> named, Advice advice) {
    List<String> lines = new ArrayList<>();
    for (List<RankedCause> alike : named) {
      List<String> each =
          alike.stream()
              .map(
                  r ->
                      alike.size() + named.size() == 2
                          ? advice.of(r.cause())
                          : "for " + r.cause().title() + ": " + advice.of(r.cause()))
              .toList();
      lines.add((alike.size() > 1 ? first(alike) + "; then, " : "") + String.join("; ", each));
    }
    return String.join("; ", lines);
  }

  private static String first(List<RankedCause> alike) {
    return has(alike, Cause.LOOP_RESISTANCE) && has(alike, Cause.STOP_BEFORE_SWITCH)
        ? "measure the loop's current at 20 mA with a meter before you touch a stop"
        : "adjust nothing before they are told apart";
  }

  private static boolean has(List<RankedCause> alike, Cause cause) {
    return alike.stream().anyMatch(r -> r.cause() == cause);
  }

  private static Outcome outcome(JudgedRun run, Causes causes) {
    Symptoms symptoms = causes.symptoms();
    if (run.record().closed().isEmpty()) {
      return Outcome.NOT_CLOSED;
    }
    if (symptoms.evidence().isEmpty()) {
      return Outcome.NO_FIGURES;
    }
    Outcome unnamed = endedEarly(run) ? Outcome.CANT_TELL : Outcome.UNKNOWN;
    if (symptoms.seen().isEmpty()) {
      return run.passed() ? Outcome.NOTHING_STANDS_OUT : unnamed;
    }
    List<List<RankedCause>> named = causes.named();
    if (!causes.standOut() || (named.isEmpty() && !causes.known())) {
      return run.passed() ? Outcome.TOO_LITTLE : unnamed;
    }
    if (named.isEmpty()) {
      return Outcome.CANT_TELL;
    }
    return named.size() > 1
        ? Outcome.BOTH_CAUSES
        : named.get(0).size() > 1 ? Outcome.TWO_CAUSES : Outcome.ONE_CAUSE;
  }

  private static boolean endedEarly(JudgedRun run) {
    return run.record().closed().filter(c -> c.how().equals("complete")).isEmpty();
  }

  private static Optional<String> next(
      JudgedRun run, Outcome outcome, Causes causes, Likelihoods likelihoods) {
    if (outcome == Outcome.CANT_TELL) {
      return Optional.of(
          endedEarly(run) ? "the same procedure, to its end" : "the procedure fault finding");
    }
    if (!outcome.namesCauses()) {
      return Optional.empty();
    }
    List<RankedCause> alike = causes.named().get(0);
    Cause first = alike.get(0).cause();
    Cause second =
        alike.size() > 1
            ? alike.get(1).cause()
            : causes.ranked().stream()
                .map(RankedCause::cause)
                .filter(c -> c != first)
                .findFirst()
                .orElseThrow();
    // What a meter tells comes before what a hand on the unit does.
    boolean meter = alike.size() > 1 && second == Cause.LOOP_RESISTANCE;
    String apart =
        alike.size() == 1
            ? first.apart()
            : (meter ? second : first).apart() + "; " + (meter ? first : second).apart();
    Optional<NextTest> test =
        NextTest.of(run, first, second, causes.symptoms().evidence(), likelihoods);
    if (test.isEmpty()) {
      return Optional.of(apart);
    }
    String words = test.get().words() + "; " + apart;
    return Optional.of(
        test.get().possible()
            ? words
            : "not distinguishable with the instruments on this bench: it would take " + words);
  }

  public RankedCause first() {
    return ranked.get(0);
  }

  /** "slack after the sensor or stiction; and wrong fail action". */
  public String namedInWords() {
    return named.stream()
        .map(
            alike -> alike.stream().map(r -> r.cause().title()).collect(Collectors.joining(" or ")))
        .collect(Collectors.joining("; and "));
  }

  /** A few lines for people: the cause, its evidence, the next test and the advice. */
  public List<String> lines() {
    return linesBeside(List.of());
  }

  /** The same for a reader of these findings: what they say is not repeated. */
  public List<String> linesBeside(List<Finding> findings) {
    EvidenceWords words = new EvidenceWords(findings);
    return switch (outcome) {
      case NOT_CLOSED ->
          List.of("The record is not closed: no advice until what was found is on record.");
      case NOT_COUNTED ->
          List.of(
              "No cause is named: they were counted on motorised units, and this one is"
                  + " pneumatic.");
      case NO_FIGURES ->
          List.of("Not distinguishable: the run holds no figures that could tell causes apart.");
      case NOTHING_STANDS_OUT ->
          List.of(
              "Nothing wrong seen: none of " + evidence.size() + " signs that the run can show.");
      case UNKNOWN ->
          List.of(
              "The run did not pass, and what it shows fits none of the causes that are looked"
                  + " for"
                  + (seen().isEmpty() ? "." : "; seen: " + words.words(seen()) + "."));
      case CANT_TELL ->
          List.of(
              "This run can't tell: it holds too little to tell one cause from the others"
                  + (seen().isEmpty() ? "." : "; seen: " + words.words(seen()) + "."),
              "  Run next: " + next.orElseThrow() + ".");
      case TOO_LITTLE ->
          List.of(
              "No cause is much more likely than a sound unit; seen: " + words.words(seen()) + ".");
      case ONE_CAUSE, TWO_CAUSES, BOTH_CAUSES -> causes(words);
    };
  }

  private List<String> causes(EvidenceWords words) {
    List<String> lines = new ArrayList<>();
    for (List<RankedCause> alike : named) {
      String start =
          !lines.isEmpty()
              ? "and with it: "
              : passed ? "It passed, and yet most likely: " : "Most likely: ";
      for (RankedCause r : alike) {
        lines.addAll(cause(r, r.equals(alike.get(0)) ? start : "or: ", words));
      }
      if (alike.size() > 1) {
        lines.add("  This run can't tell these " + COUNTED.get(alike.size()) + " apart.");
      }
    }
    rest(words).ifPresent(more -> lines.add("  " + more));
    next.ifPresent(test -> lines.add("  To be sure: " + test + "."));
    lines.add("  Advice: " + advice + "; the unit's own manual comes first.");
    return lines;
  }

  /** That what is named may not be all, and why; empty where nothing says so. */
  public Optional<String> rest(EvidenceWords words) {
    if (!outcome.namesCauses() || (unexplained.isEmpty() && whole)) {
      return Optional.empty();
    }
    return Optional.of(
        (unexplained.isEmpty() ? "" : "Not explained by that: " + words.words(unexplained) + ". ")
            + (whole ? "It may not be all." : "The run ended early: it may not be all."));
  }

  private static List<String> cause(RankedCause r, String start, EvidenceWords words) {
    List<String> lines = new ArrayList<>();
    String seen = words.words(r.evidenceFor());
    lines.add(
        start
            + r.cause().title()
            + ", "
            + Numbers.fixed(100.0 * r.probability(), 0)
            + " %"
            + (seen.equals(EvidenceWords.ABOVE) ? " (" + seen + ")" : ""));
    if (!seen.isEmpty() && !seen.equals(EvidenceWords.ABOVE)) {
      lines.add("  for: " + seen);
    }
    if (!r.evidenceAgainst().isEmpty()) {
      lines.add("  against: not seen: " + words.words(r.evidenceAgainst()));
    }
    return lines;
  }

  private List<Evidence> seen() {
    return evidence.stream().filter(Evidence::seen).toList();
  }
}
