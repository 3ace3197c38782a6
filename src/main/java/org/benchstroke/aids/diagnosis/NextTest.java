package org.benchstroke.aids.diagnosis;

import java.util.Arrays;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.judge.AsOrdered;
import org.benchstroke.judge.JudgedRun;
import org.benchstroke.judge.Judgement;
import org.benchstroke.judge.Word;
import org.benchstroke.unit.MeasureKind;

/**
 * The cheapest test that would tell two causes apart: of those that this run did not show, the
 * shortest one with a sign that one of them shows much more often than the other.
 *
 * @param test the test
 * @param seconds how long it takes about, s
 * @param possible whether the bench has the instruments
 */
record NextTest(SignNeeds test, double seconds, boolean possible) {
  /** A sign that parts two causes is seen so much more often with one of them. Our choice. */
  private static final double PARTS = 0.5;

  static Optional<NextTest> of(
      JudgedRun run, Cause one, Cause other, List<Evidence> evidence, Likelihoods likelihoods) {
    // A test that was done shows no more when it is done again.
    Set<SignNeeds> done = done(run);
    evidence.forEach(e -> done.add(e.sign().shownBy()));
    Map<SignNeeds, Double> parts = new EnumMap<>(SignNeeds.class);
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

  /** What the run holds figures of, whether they told a sign or not. */
  private static Set<SignNeeds> done(JudgedRun run) {
    Set<SignNeeds> done = EnumSet.noneOf(SignNeeds.class);
    run.judgements().stream()
        .map(Judgement::measure)
        .filter(m -> m.value().isPresent())
        .forEach(m -> shown(m.kind()).ifPresent(done::add));
    run.orders().stream()
        .filter(o -> o.word() != Word.NO_RESULT)
        .forEach(o -> shown(o.subject()).ifPresent(done::add));
    if (!run.feedback().isEmpty()) {
      done.add(SignNeeds.TRAVEL);
    }
    if (run.stemProven()) {
      done.add(SignNeeds.TRAVEL_WITH_STEM);
    }
    return done;
  }

  private static Optional<SignNeeds> shown(MeasureKind kind) {
    return switch (kind) {
      case STROKE_TIME_OPENING, STROKE_TIME_CLOSING -> Optional.of(SignNeeds.STROKES);
      case SEAT_LAG -> Optional.of(SignNeeds.STROKES_WITH_STEM);
      case SUPPLY_SAG -> Optional.of(SignNeeds.SUPPLY);
      case DEAD_TIME -> Optional.of(SignNeeds.STEPS);
      case DEAD_BAND -> Optional.of(SignNeeds.DEAD_BAND);
      default -> Optional.empty();
    };
  }

  private static Optional<SignNeeds> shown(AsOrdered.Subject subject) {
    return switch (subject) {
      case SWITCHES -> Optional.of(SignNeeds.SWITCHES);
      case SIGNAL_LOSS -> Optional.of(SignNeeds.LOSSES);
      case HUNTING -> Optional.of(SignNeeds.HOLDS);
      default -> Optional.empty();
    };
  }

  private static NextTest of(JudgedRun run, SignNeeds test) {
    boolean possible = test.needs().map(r -> run.bench().playing(r).isPresent()).orElse(true);
    return new NextTest(test, test.seconds(run.unit()), possible);
  }

  /** "switches, about 90 s". */
  String words() {
    return test.words() + ", about " + Numbers.fixed(Math.ceil(seconds / 10.0) * 10.0, 0) + " s";
  }
}
