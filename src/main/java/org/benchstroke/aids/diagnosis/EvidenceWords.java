package org.benchstroke.aids.diagnosis;

import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Stream;
import org.benchstroke.judge.Finding;

/**
 * Nothing is told twice: a finding says what was seen, with its numbers, a likely cause what that
 * comes from and what to adjust. A sign that stands among the findings already is not told again.
 * Immutable.
 */
public final class EvidenceWords {
  /** Stands for the signs that the findings tell. */
  static final String ABOVE = "see the findings";

  private static final Map<Sign, Finding.Kind> FINDINGS =
      Map.of(
          Sign.ACTION_OPPOSITE, Finding.Kind.ACTION,
          Sign.WRONG_ON_LOSS, Finding.Kind.SIGNAL_LOSS,
          Sign.LIMIT_CYCLE, Finding.Kind.HUNTING,
          Sign.RESTLESS_EVERYWHERE, Finding.Kind.RESTLESS,
          Sign.RESTLESS_AT_ONE_PLACE, Finding.Kind.RESTLESS,
          Sign.SHORT_SWITCH_MADE, Finding.Kind.END_SHORT,
          Sign.CONSTANT_ERROR, Finding.Kind.ZERO,
          Sign.GROWING_ERROR, Finding.Kind.SPAN,
          Sign.STEM_LAGS, Finding.Kind.SLACK);

  private final Set<Finding.Kind> findings = EnumSet.noneOf(Finding.Kind.class);

  /** By these findings, which the reader has; without any, everything is told. */
  public EvidenceWords(List<Finding> findings) {
    findings.forEach(finding -> this.findings.add(finding.kind()));
  }

  /** The evidence in words; empty without any. */
  public String words(List<Evidence> some) {
    Stream<String> above = some.stream().filter(this::already).map(e -> ABOVE).limit(1);
    Stream<String> here = some.stream().filter(e -> !already(e)).map(Evidence::words);
    return String.join("; ", Stream.concat(above, here).toList());
  }

  private boolean already(Evidence evidence) {
    Finding.Kind finding = FINDINGS.get(evidence.sign());
    return evidence.seen() && finding != null && findings.contains(finding);
  }
}
