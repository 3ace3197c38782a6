package org.benchstroke.aids.diagnosis;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Stream;
import org.benchstroke.judge.FindingWords;

/**
 * Nothing is told twice: a finding says what was seen, with its numbers, a likely cause what that
 * comes from and what to adjust. A sign that stands among the findings already is not told again.
 * Immutable.
 */
public final class Told {
  /** Stands for the signs that the findings tell. */
  static final String ABOVE = "see the findings";

  private static final Map<Sign, String> FINDINGS =
      Map.of(
          Sign.ACTION_OPPOSITE, FindingWords.ACTION,
          Sign.WRONG_ON_LOSS, FindingWords.SIGNAL_LOSS,
          Sign.LIMIT_CYCLE, FindingWords.HUNTING,
          Sign.RESTLESS_EVERYWHERE, FindingWords.RESTLESS,
          Sign.RESTLESS_AT_ONE_PLACE, FindingWords.RESTLESS,
          Sign.SHORT_SWITCH_MADE, FindingWords.SWITCH_CUTS,
          Sign.CONSTANT_ERROR, FindingWords.ZERO,
          Sign.GROWING_ERROR, FindingWords.SPAN,
          Sign.STEM_LAGS, FindingWords.SLACK);

  private final List<String> findings;

  /** By these findings, which the reader has; without any, everything is told. */
  public Told(List<String> findings) {
    this.findings = List.copyOf(findings);
  }

  /** The evidence in words; empty without any. */
  public String words(List<Evidence> some) {
    Stream<String> above = some.stream().filter(this::already).map(e -> ABOVE).limit(1);
    Stream<String> here = some.stream().filter(e -> !already(e)).map(Evidence::words);
    return String.join("; ", Stream.concat(above, here).toList());
  }

  private boolean already(Evidence evidence) {
    Optional<String> words = Optional.ofNullable(FINDINGS.get(evidence.sign()));
    return evidence.seen()
        && words.map(w -> findings.stream().anyMatch(f -> f.contains(w))).orElse(false);
  }
}
