package org.benchstroke.diagnosis;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.function.Supplier;
import org.benchstroke.bench.UnitType;
import org.benchstroke.quantity.Numbers;
import org.benchstroke.twin.Twin;
import org.benchstroke.verdict.JudgedRun;

/**
 * Likely causes of what a run shows, most likely first: a naive Bayes over {@link Sign}s, each
 * taken as independent of the others given the cause, with {@link Likelihoods} counted on simulated
 * units. What the bench or the procedure can't show counts neither way. Immutable.
 *
 * @param evidence every sign that the run could show
 * @param ranked all causes, most likely first; their probabilities sum to 1; none of a unit whose
 *     signs nobody has counted
 * @param passed whether the run passed: a fault may break no limit that was agreed
 * @param outcome what there is to say
 * @param next the test that would tell the first two apart; empty if none would
 * @param advice what to adjust, and by how much; empty where no cause is named
 */
public record Diagnosis(
    List<Evidence> evidence,
    List<Ranked> ranked,
    boolean passed,
    Outcome outcome,
    Optional<String> next,
    String advice) {
  /** Most units that pass are sound; our choice, no source. */
  private static final double SOUND_IF_PASSED = 0.7;

  /** Few that do not pass are; our choice, no source. */
  private static final double SOUND_IF_NOT = 0.05;

  /**
   * Two causes closer than this ratio are not told apart, nor a cause and a sound unit. Our choice.
   */
  private static final double APART = 3.0;

  /** What is named must be likelier than all the rest together. Our choice. */
  private static final double NAMED = 0.5;

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
    /** It ended early, or else too much of it is missing to part one cause from the others. */
    CANT_TELL,
    /** It passed; something was seen, but no fault is much likelier than a sound unit. */
    TOO_LITTLE,
    /** One cause stands out. */
    ONE_CAUSE,
    /** Two causes are too close to call. */
    TWO_CAUSES;

    /** Whether causes are named, and something to adjust with them. */
    public boolean namesCauses() {
      return this == ONE_CAUSE || this == TWO_CAUSES;
    }
  }

  public Diagnosis {
    evidence = List.copyOf(evidence);
    ranked = List.copyOf(ranked);
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
          List.of(), List.of(), run.passed(), Outcome.NOT_COUNTED, Optional.empty(), "");
    }
    Signs signs = new Signs(run);
    List<Evidence> evidence = signs.all();
    List<Ranked> ranked = ranked(evidence, run.passed(), likelihoods);
    Outcome outcome = outcome(run, evidence, ranked);
    return new Diagnosis(
        evidence,
        ranked,
        run.passed(),
        outcome,
        next(run, outcome, evidence, ranked, likelihoods),
        advice(outcome, ranked, new Advice(run, signs, twin)));
  }

  /** Of two causes neither is adjusted before they are told apart. */
  private static String advice(Outcome outcome, List<Ranked> ranked, Advice advice) {
    Cause first = ranked.get(0).cause();
    Cause second = ranked.get(1).cause();
    return switch (outcome) {
      case ONE_CAUSE -> advice.of(first);
      case TWO_CAUSES ->
          "adjust nothing before they are told apart; then, for "
              + first.title()
              + ": "
              + advice.of(first)
              + "; for "
              + second.title()
              + ": "
              + advice.of(second);
      default -> "";
    };
  }

  /** The signs of a run alone, for counting. */
  public static List<Evidence> signs(JudgedRun run) {
    return new Signs(run).all();
  }

  /** All causes by what was seen and what was not, most likely first. */
  public static List<Ranked> ranked(
      List<Evidence> evidence, boolean passed, Likelihoods likelihoods) {
    double sound = passed ? SOUND_IF_PASSED : SOUND_IF_NOT;
    double faultPrior = (1.0 - sound) / (Cause.values().length - 1);
    List<Ranked> weighed = new ArrayList<>();
    double total = 0.0;
    for (Cause cause : Cause.values()) {
      double weight = cause == Cause.HEALTHY ? sound : faultPrior;
      for (Evidence e : evidence) {
        double seen = likelihoods.of(e.sign(), cause);
        weight *= e.seen() ? seen : 1.0 - seen;
      }
      total += weight;
      weighed.add(
          new Ranked(
              cause,
              weight,
              speaking(evidence, true, cause, likelihoods),
              speaking(evidence, false, cause, likelihoods)));
    }
    double sum = total;
    return weighed.stream()
        .map(r -> r.withProbability(r.probability() / sum))
        .sorted(Comparator.comparingDouble(Ranked::probability).reversed())
        .toList();
  }

  /** What is mostly seen with that cause, and was or was not. */
  private static List<Evidence> speaking(
      List<Evidence> evidence, boolean seen, Cause cause, Likelihoods likelihoods) {
    return cause == Cause.HEALTHY
        ? List.of()
        : evidence.stream()
            .filter(e -> e.seen() == seen && likelihoods.of(e.sign(), cause) > 0.5)
            .toList();
  }

  /** Whether anything was seen, and is much likelier with a fault than without. */
  public static boolean standsOut(List<Evidence> evidence, List<Ranked> ranked) {
    double first = ranked.get(0).probability();
    return evidence.stream().anyMatch(Evidence::seen)
        && ranked.stream()
            .filter(r -> r.cause() == Cause.HEALTHY)
            .allMatch(sound -> first >= APART * sound.probability());
  }

  private static Outcome outcome(JudgedRun run, List<Evidence> evidence, List<Ranked> ranked) {
    if (run.record().closed().isEmpty()) {
      return Outcome.NOT_CLOSED;
    }
    if (evidence.isEmpty()) {
      return Outcome.NO_FIGURES;
    }
    Outcome unnamed = endedEarly(run) ? Outcome.CANT_TELL : Outcome.UNKNOWN;
    if (evidence.stream().noneMatch(Evidence::seen)) {
      return run.passed() ? Outcome.NOTHING_STANDS_OUT : unnamed;
    }
    if (!standsOut(evidence, ranked)) {
      return run.passed() ? Outcome.TOO_LITTLE : unnamed;
    }
    return named(ranked.get(0).probability(), ranked.get(1).probability());
  }

  private static boolean endedEarly(JudgedRun run) {
    return run.record().closed().filter(c -> c.how().equals("complete")).isEmpty();
  }

  private static Outcome named(double first, double second) {
    boolean close = first < APART * second;
    if (first + (close ? second : 0.0) < NAMED) {
      return Outcome.CANT_TELL;
    }
    return close ? Outcome.TWO_CAUSES : Outcome.ONE_CAUSE;
  }

  private static Optional<String> next(
      JudgedRun run,
      Outcome outcome,
      List<Evidence> evidence,
      List<Ranked> ranked,
      Likelihoods likelihoods) {
    if (outcome == Outcome.CANT_TELL) {
      return Optional.of(
          endedEarly(run) ? "the same procedure, to its end" : "the procedure fault finding");
    }
    if (!outcome.namesCauses()) {
      return Optional.empty();
    }
    Optional<NextTest> test =
        NextTest.of(run, ranked.get(0).cause(), ranked.get(1).cause(), evidence, likelihoods);
    if (test.isEmpty()) {
      return Optional.of(ranked.get(0).cause().apart());
    }
    String words = test.get().words() + "; " + ranked.get(0).cause().apart();
    return Optional.of(
        test.get().possible()
            ? words
            : "not distinguishable with the instruments on this bench: it would take " + words);
  }

  public Ranked first() {
    return ranked.get(0);
  }

  /** A few lines for people: the cause, its evidence, the next test and the advice. */
  public List<String> lines() {
    return linesBeside(List.of());
  }

  /** The same for who has read these findings: what they tell is not told again. */
  public List<String> linesBeside(List<String> findings) {
    Told told = new Told(findings);
    return switch (outcome) {
      case NOT_CLOSED ->
          List.of("The record is not closed: no advice before what was found is on record.");
      case NOT_COUNTED ->
          List.of(
              "None is named: causes were counted on motorised units, and this one is pneumatic.");
      case NO_FIGURES ->
          List.of("Not distinguishable: the run holds no figures that could tell causes apart.");
      case NOTHING_STANDS_OUT ->
          List.of("Nothing stands out, of " + evidence.size() + " signs that the run can show.");
      case UNKNOWN ->
          List.of(
              "The run did not pass, and what it shows speaks for none of the causes that are"
                  + " looked for"
                  + (seen().isEmpty() ? "." : "; seen: " + told.words(seen()) + "."));
      case CANT_TELL ->
          List.of(
              "This run can't tell: it holds too little to part one cause from the others"
                  + (seen().isEmpty() ? "." : "; seen: " + told.words(seen()) + "."),
              "  Run next: " + next.orElseThrow() + ".");
      case TOO_LITTLE ->
          List.of("No cause is much likelier than a sound unit; seen: " + told.words(seen()) + ".");
      case ONE_CAUSE, TWO_CAUSES -> causes(told);
    };
  }

  private List<String> causes(Told told) {
    List<String> lines = new ArrayList<>();
    String start = passed ? "It passed, and yet most likely: " : "Most likely: ";
    for (Ranked r : ranked.subList(0, outcome == Outcome.TWO_CAUSES ? 2 : 1)) {
      String seen = told.words(r.evidenceFor());
      lines.add(
          (lines.isEmpty() ? start : "or: ")
              + r.cause().title()
              + ", "
              + Numbers.fixed(100.0 * r.probability(), 0)
              + " %"
              + (seen.equals(Told.ABOVE) ? " (" + seen + ")" : ""));
      if (!seen.isEmpty() && !seen.equals(Told.ABOVE)) {
        lines.add("  for: " + seen);
      }
      if (!r.evidenceAgainst().isEmpty()) {
        lines.add("  against: not seen: " + told.words(r.evidenceAgainst()));
      }
    }
    if (outcome == Outcome.TWO_CAUSES) {
      lines.add("  These two are not told apart by this run.");
    }
    next.ifPresent(test -> lines.add("  To be sure: " + test + "."));
    lines.add("  Advice: " + advice + "; the unit's own manual comes first.");
    return lines;
  }

  private List<Evidence> seen() {
    return evidence.stream().filter(Evidence::seen).toList();
  }
}
