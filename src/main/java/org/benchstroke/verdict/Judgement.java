package org.benchstroke.verdict;

import java.util.Optional;
import java.util.OptionalDouble;
import org.benchstroke.bench.Limit;

/**
 * A measure held against its limit.
 *
 * @param measure the measure
 * @param limit the limit; empty means <em>no limit</em>, which is never a pass
 * @param word the word; empty exactly if there is no limit
 * @param probability the probability that the true value conforms, 0..1; empty without a limit or a
 *     value
 */
public record Judgement(
    Measure measure, Optional<Limit> limit, Optional<Word> word, OptionalDouble probability) {}
