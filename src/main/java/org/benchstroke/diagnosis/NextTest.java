package org.benchstroke.diagnosis;

import java.util.Arrays;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.benchstroke.quantity.Numbers;
import org.benchstroke.verdict.JudgedRun;

/**
 * The cheapest test that would tell two causes apart: of those that this run did not show, the
 * shortest one with a sign that one of them shows much more often than the other.
 *
 * @param test the test
 * @param seconds how long it takes about, s
 * @param possible whether the bench has the instruments
 */
record NextTest(Shown test, double seconds, boolean possible) {
  /** A sign that parts two causes is seen so much more often with one of them. Our choice. */
  private static final double PARTS = 0.5;

  static Optional<NextTest> of(
      JudgedRun run, Cause one, Cause other, List<Evidence> evidence, Likelihoods likelihoods) {
    // A test that was done shows no more when it is done again.
    Set<Shown> done = EnumSet.noneOf(Shown.class);
    evidence.forEach(e -> done.add(e.sign().shownBy()));
    Map<Shown, Double> parts = new EnumMap<>(Shown.class);
    Arrays.stream(Sign.values())
        .filter(sign -> !done.contains(sign.shownBy()))
        .forEach(
            sign ->
                parts.merge(
                    sign.shownBy(),
                    Math.abs(likelihoods.of(sign, one) - likelihoods.of(sign, other)),
                    Math::max));
    return parts.entrySet().stream()
        .filter(e -> e.getValue() > PARTS)
        .map(e -> of(run, e.getKey()))
        .min(
            Comparator.comparing((NextTest t) -> !t.possible())
                .thenComparingDouble(NextTest::seconds));
  }

  private static NextTest of(JudgedRun run, Shown test) {
    boolean possible = test.needs().map(r -> run.bench().playing(r).isPresent()).orElse(true);
    return new NextTest(test, test.seconds(run.unit()), possible);
  }

  /** "switches, about 90 s". */
  String words() {
    return test.words() + ", about " + Numbers.fixed(Math.ceil(seconds / 10.0) * 10.0, 0) + " s";
  }
}
