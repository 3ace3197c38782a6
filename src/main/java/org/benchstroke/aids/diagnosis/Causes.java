package org.benchstroke.aids.diagnosis;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import org.benchstroke.aids.diagnosis.Likelihoods.Kind;

/**
 * What symptoms say of the causes: how likely each is, which are named, and what they leave
 * unexplained. Immutable.
 *
 * @param symptoms what the run shows
 * @param ranked all causes that no measure denies, most likely first; the sound unit among them
 * @param named those that are named: of each list one is there; empty where nothing is likely
 *     enough
 * @param unexplained what was seen and none of the named shows
 * @param standOut whether something was seen, and a fault is much likelier than a sound unit
 * @param known whether it is likelier one of these than something that nobody counted
 */
public record Causes(
    Symptoms symptoms,
    List<RankedCause> ranked,
    List<List<RankedCause>> named,
    List<Evidence> unexplained,
    boolean standOut,
    boolean known) {
  /** A fault and a sound unit closer than this ratio are not told apart. Our choice. */
  private static final double APART = 3.0;

  /** What shows a sign more rarely does not explain it. Our choice. */
  private static final double EXPLAINS = 0.15;

  /** Probabilities that agree to this are alike; then the order is that of the causes. */
  private static final double FINE = 1e6;

  /** What mostly comes with a cause speaks for it if it was seen, and against it if not. */
  private static final double MOSTLY = 0.5;

  public Causes {
    ranked = List.copyOf(ranked);
    named = named.stream().map(List::copyOf).toList();
    unexplained = List.copyOf(unexplained);
  }

  /** Whether there may be more than what is named: not all is explained, or not all was run. */
  public boolean mayNotBeAll() {
    return !unexplained.isEmpty() || !symptoms.whole();
  }

  /** By these likelihoods. */
  public static Causes of(Symptoms symptoms, Likelihoods likelihoods) {
    Posterior posterior = Posterior.of(symptoms, likelihoods);
    List<List<RankedCause>> named = new ArrayList<>();
    for (List<Cause> alike : NamedCauses.of(posterior)) {
      named.add(alike.stream().map(c -> ranked(c, symptoms, posterior, likelihoods)).toList());
    }
    List<RankedCause> all = new ArrayList<>();
    all.add(new RankedCause(Cause.HEALTHY, posterior.sound(), List.of(), List.of()));
    posterior.causes().keySet().forEach(c -> all.add(ranked(c, symptoms, posterior, likelihoods)));
    all.sort(Comparator.comparingLong(r -> Math.round(-FINE * r.probability())));
    double most = posterior.causes().values().stream().mapToDouble(p -> p).max().orElse(0.0);
    boolean seen = !symptoms.seen().isEmpty();
    return new Causes(
        symptoms,
        all,
        named,
        unexplained(symptoms, named, posterior, likelihoods),
        seen && Math.max(most, posterior.unknown()) >= APART * posterior.sound(),
        most > posterior.unknown());
  }

  private static RankedCause ranked(
      Cause cause, Symptoms symptoms, Posterior posterior, Likelihoods likelihoods) {
    Kind kind = posterior.kinds().get(cause);
    List<Evidence> these =
        symptoms.evidence().stream()
            .filter(e -> kind != null && likelihoods.of(e.sign(), kind) > MOSTLY)
            .toList();
    return new RankedCause(
        cause,
        posterior.of(cause),
        these.stream().filter(Evidence::seen).toList(),
        these.stream().filter(e -> !e.seen()).toList());
  }

  private static List<Evidence> unexplained(
      Symptoms symptoms,
      List<List<RankedCause>> named,
      Posterior posterior,
      Likelihoods likelihoods) {
    return symptoms.seen().stream()
        .filter(
            e ->
                named.stream()
                    .flatMap(List::stream)
                    .map(r -> posterior.kinds().get(r.cause()))
                    .allMatch(k -> likelihoods.of(e.sign(), k) < EXPLAINS))
        .toList();
  }
}
