package org.benchstroke.diagnosis;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import org.benchstroke.verdict.JudgedRun;

/**
 * Likely causes of what a run shows, most likely first: a naive Bayes over {@link Sign}s, each
 * taken as independent of the others given the cause. What the bench or the procedure can't show
 * counts neither way. Immutable.
 *
 * @param evidence every sign that the run could show
 * @param ranked all causes, most likely first; their probabilities sum to 1
 * @param passed whether the run passed: else the absence of signs says nothing good
 */
public record Diagnosis(List<Evidence> evidence, List<Ranked> ranked, boolean passed) {
  /** Most units are sound; our choice, no source. */
  private static final double HEALTHY_PRIOR = 0.7;

  /** Two causes closer than this ratio are not told apart. Our choice. */
  private static final double APART = 3.0;

  public Diagnosis {
    evidence = List.copyOf(evidence);
    ranked = List.copyOf(ranked);
  }

  public static Diagnosis of(JudgedRun run) {
    return of(new Signs(run).all(), run.passed());
  }

  private static Diagnosis of(List<Evidence> evidence, boolean passed) {
    double faultPrior = (1.0 - HEALTHY_PRIOR) / (Cause.values().length - 1);
    List<Ranked> weighed = new ArrayList<>();
    double total = 0.0;
    for (Cause cause : Cause.values()) {
      double weight = cause == Cause.HEALTHY ? HEALTHY_PRIOR : faultPrior;
      for (Evidence e : evidence) {
        double seen = e.sign().likelihood(cause);
        weight *= e.seen() ? seen : 1.0 - seen;
      }
      total += weight;
      weighed.add(
          new Ranked(
              cause,
              weight,
              evidence.stream().filter(e -> e.seen() && e.sign().pointsTo(cause)).toList(),
              evidence.stream().filter(e -> !e.seen() && e.sign().pointsTo(cause)).toList()));
    }
    double sum = total;
    List<Ranked> ranked =
        weighed.stream()
            .map(
                r ->
                    new Ranked(
                        r.cause(), r.probability() / sum, r.evidenceFor(), r.evidenceAgainst()))
            .sorted(Comparator.comparingDouble(Ranked::probability).reversed())
            .toList();
    return new Diagnosis(evidence, ranked, passed);
  }

  public Ranked first() {
    return ranked.get(0);
  }

  /** Whether the run could show anything at all. */
  public boolean possible() {
    return !evidence.isEmpty();
  }

  /** Whether it passed and no sign was seen: a sound unit, as far as the run could show it. */
  public boolean nothingStandsOut() {
    return passed && noSign();
  }

  private boolean noSign() {
    return possible() && evidence.stream().noneMatch(Evidence::seen);
  }

  /** Whether the first two causes are too close to call. */
  public boolean undecided() {
    return first().probability() < APART * ranked.get(1).probability();
  }

  /** A few lines for people: the cause, its evidence, the next test and the advice. */
  public List<String> lines() {
    if (!possible()) {
      return List.of("Not distinguishable: the run holds no figures that could tell causes apart.");
    }
    if (nothingStandsOut()) {
      return List.of("Nothing stands out, of " + evidence.size() + " signs that the run can show.");
    }
    if (noSign()) {
      return List.of(
          "No known sign was seen, yet the run did not pass: the cause is not among those that are"
              + " looked for.");
    }
    if (first().cause() == Cause.HEALTHY) {
      return List.of("No cause is likelier than a sound unit; seen: " + words(seen()) + ".");
    }
    List<String> lines = new ArrayList<>();
    for (Ranked r : ranked.subList(0, undecided() ? 2 : 1)) {
      lines.add((lines.isEmpty() ? "Most like: " : "or: ") + r.cause().title());
      if (!r.evidenceFor().isEmpty()) {
        lines.add("  for: " + words(r.evidenceFor()));
      }
      if (!r.evidenceAgainst().isEmpty()) {
        lines.add("  against: not seen: " + words(r.evidenceAgainst()));
      }
    }
    if (undecided()) {
      lines.add("  These two are not told apart by this run.");
    }
    lines.add("  Next test: " + first().cause().nextTest() + ".");
    lines.add("  Advice: " + first().cause().advice() + "; the unit's own manual comes first.");
    return lines;
  }

  private List<Evidence> seen() {
    return evidence.stream().filter(Evidence::seen).toList();
  }

  private static String words(List<Evidence> some) {
    return String.join(
        "; ",
        some.stream()
            .map(e -> e.sign().words() + (e.figures().isEmpty() ? "" : " (" + e.figures() + ")"))
            .toList());
  }
}
