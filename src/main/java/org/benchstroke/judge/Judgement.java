package org.benchstroke.judge;

import java.util.Optional;
import java.util.OptionalDouble;
import org.benchstroke.unit.Limit;

/**
 * A measure compared with its limit.
 *
 * @param measure the measure
 * @param limit the limit; empty means <em>no limit</em>, which is never a pass
 * @param word the word; empty exactly if there is no limit
 * @param probability the probability that the true value conforms, 0..1; empty without a limit or a
 *     value
 */
public record Judgement(
    Measure measure, Optional<Limit> limit, Optional<Word> word, OptionalDouble probability) {
  /** The accuracy ratio, tolerance ÷ U; empty without a limit or an uncertainty above 0. */
  public OptionalDouble accuracyRatio() {
    double half = measure.budget().map(b -> b.expand().half()).orElse(0.0);
    return limit.isPresent() && half > 0.0
        ? OptionalDouble.of(limit.get().accuracyRatio(half))
        : OptionalDouble.empty();
  }
}
