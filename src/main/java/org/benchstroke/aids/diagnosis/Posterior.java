package org.benchstroke.aids.diagnosis;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.benchstroke.aids.diagnosis.Likelihoods.Kind;

/**
 * How likely each cause is, alone or with another, by what was seen and what was not: Bayes over
 * the kinds of all causes and over all pairs of them, each sign taken as independent of the others
 * given those. With two at once a sign is seen where either shows it. Something that nobody counted
 * is one of the choices, so that what fits none of them is not laid at the door of the least bad.
 * Immutable.
 *
 * @param sound how likely the unit is sound, 0 to 1
 * @param unknown how likely it is something that was not counted
 * @param causes how likely each cause is there, alone or not; none of the sound unit
 * @param both how likely two are there at once, for those that come with each other
 * @param kinds the likeliest kind of each cause
 */
record Posterior(
    double sound,
    double unknown,
    Map<Cause, Double> causes,
    Map<Pair, Double> both,
    Map<Cause, Kind> kinds) {
  /** Most units that pass are sound; our choice, no source. */
  private static final double SOUND_IF_PASSED = 0.7;

  /** Few that do not pass are; our choice, no source. */
  private static final double SOUND_IF_NOT = 0.05;

  /** Of faulty units so many have two faults; our choice, no source. */
  private static final double TWO_AT_ONCE = 0.2;

  /** And so many one that nobody counted; our choice, no source. */
  private static final double NOT_COUNTED = 0.03;

  /** Beside another fault a sign is missed that often: one hides the other. Our choice. */
  private static final double HIDDEN = 0.1;

  /** What is not counted shows any sign at least that often. Our choice. */
  private static final double ANY_SIGN = 0.1;

  /** Two causes, in the order of their names in the program. */
  record Pair(Cause one, Cause other) {
    static Pair of(Cause a, Cause b) {
      return a.compareTo(b) < 0 ? new Pair(a, b) : new Pair(b, a);
    }
  }

  /** One kind with what it makes of the signs: how likely, those not seen and those seen. */
  private record Weighed(Kind kind, double unseen, double unseenBeside, List<Double> seen) {
    double alone() {
      double weight = unseen;
      for (double likely : seen) {
        weight *= likely;
      }
      return weight;
    }

    double with(Weighed other) {
      double weight = unseenBeside * other.unseenBeside;
      for (int i = 0; i < seen.size(); i++) {
        weight *= 1.0 - (1.0 - seen.get(i)) * (1.0 - other.seen.get(i));
      }
      return weight;
    }
  }

  static Posterior of(Symptoms symptoms, Likelihoods likelihoods) {
    Map<Cause, List<Weighed>> weighed = new EnumMap<>(Cause.class);
    for (Kind kind : likelihoods.kinds(symptoms.loopMeter())) {
      if (!symptoms.denied().containsKey(kind.cause())) {
        weighed
            .computeIfAbsent(kind.cause(), c -> new ArrayList<>())
            .add(weigh(kind, symptoms, likelihoods));
      }
    }
    if (symptoms.loopUnproven()) {
      alike(weighed, Cause.LOOP_RESISTANCE, Cause.STOP_BEFORE_SWITCH);
    }
    return new Sums(symptoms, likelihoods, weighed).posterior();
  }

  /** Two causes that look the same: what was counted of one was counted of the other, too. */
  private static void alike(Map<Cause, List<Weighed>> weighed, Cause one, Cause other) {
    List<Weighed> both = new ArrayList<>(weighed.getOrDefault(one, List.of()));
    both.addAll(weighed.getOrDefault(other, List.of()));
    weighed.computeIfPresent(one, (c, own) -> both);
    weighed.computeIfPresent(other, (c, own) -> both);
  }

  private static Weighed weigh(Kind kind, Symptoms symptoms, Likelihoods likelihoods) {
    double unseen = 1.0;
    double beside = 1.0;
    for (Evidence e : symptoms.evidence()) {
      if (!e.seen()) {
        double missed = 1.0 - likelihoods.of(e.sign(), kind);
        unseen *= missed;
        beside *= Math.max(HIDDEN, missed);
      }
    }
    List<Double> seen =
        symptoms.evidence().stream()
            .filter(Evidence::seen)
            .map(e -> likelihoods.of(e.sign(), kind))
            .toList();
    return new Weighed(kind, unseen, beside, seen);
  }

  /** Adds the weights up. One thread. */
  private static final class Sums {
    private final Symptoms symptoms;
    private final Likelihoods likelihoods;
    private final Map<Cause, List<Weighed>> weighed;
    private final Map<Cause, Double> causes = new EnumMap<>(Cause.class);
    private final Map<Pair, Double> both = new HashMap<>();
    private final Map<Cause, Kind> kinds = new EnumMap<>(Cause.class);
    private final Map<Cause, Double> best = new EnumMap<>(Cause.class);

    Sums(Symptoms symptoms, Likelihoods likelihoods, Map<Cause, List<Weighed>> weighed) {
      this.symptoms = symptoms;
      this.likelihoods = likelihoods;
      this.weighed = weighed;
    }

    Posterior posterior() {
      double isSound = symptoms.passed() ? SOUND_IF_PASSED : SOUND_IF_NOT;
      double faulty = 1.0 - isSound;
      List<Cause> faults = new ArrayList<>(weighed.keySet());
      faults.remove(Cause.HEALTHY);
      double sound =
          isSound
              * weighed.getOrDefault(Cause.HEALTHY, List.of()).stream()
                  .mapToDouble(Weighed::alone)
                  .average()
                  .orElse(0.0);
      double unknown = faulty * NOT_COUNTED * anySigns();
      double total = sound + unknown;
      // All causes are there beforehand, those that are denied too: no other takes their share.
      double one = faulty * (1.0 - TWO_AT_ONCE - NOT_COUNTED) / (Cause.values().length - 1);
      double two = faulty * TWO_AT_ONCE / pairs(Cause.values().length - 1);
      for (int i = 0; i < faults.size(); i++) {
        total += alone(faults.get(i), one);
        for (int k = 0; k < i; k++) {
          total += together(faults.get(i), faults.get(k), two);
        }
      }
      double sum = total;
      causes.replaceAll((cause, weight) -> weight / sum);
      both.replaceAll((pair, weight) -> weight / sum);
      return new Posterior(sound / sum, unknown / sum, causes, both, kinds);
    }

    private static double pairs(int many) {
      return many * (many - 1) / 2.0;
    }

    private double anySigns() {
      double weight = 1.0;
      for (Evidence e : symptoms.evidence()) {
        double usual =
            weighed.keySet().stream()
                .mapToDouble(c -> likelihoods.of(e.sign(), c))
                .average()
                .orElse(0.5);
        weight *= e.seen() ? Math.max(ANY_SIGN, usual) : 1.0 - usual;
      }
      return weight;
    }

    private double alone(Cause cause, double prior) {
      List<Weighed> these = weighed.get(cause);
      double sum = 0.0;
      for (Weighed each : these) {
        sum += add(cause, each, prior / these.size() * each.alone());
      }
      return sum;
    }

    private double together(Cause a, Cause b, double prior) {
      List<Weighed> ones = weighed.get(a);
      List<Weighed> others = weighed.get(b);
      double sum = 0.0;
      for (Weighed one : ones) {
        for (Weighed other : others) {
          double weight = prior / (ones.size() * others.size()) * one.with(other);
          add(a, one, weight);
          add(b, other, weight);
          sum += weight;
        }
      }
      both.put(Pair.of(a, b), sum);
      return sum;
    }

    private double add(Cause cause, Weighed each, double weight) {
      causes.merge(cause, weight, Double::sum);
      if (weight > best.getOrDefault(cause, 0.0)) {
        best.put(cause, weight);
        kinds.put(cause, each.kind());
      }
      return weight;
    }
  }

  double of(Cause cause) {
    return causes.getOrDefault(cause, 0.0);
  }

  /** That both are there. */
  double of(Cause a, Cause b) {
    return both.getOrDefault(Pair.of(a, b), 0.0);
  }
}
