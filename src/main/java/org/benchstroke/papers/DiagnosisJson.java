package org.benchstroke.papers;

import java.util.List;
import java.util.Locale;
import org.benchstroke.aids.diagnosis.Diagnosis;
import org.benchstroke.aids.diagnosis.Evidence;
import org.benchstroke.aids.diagnosis.RankedCause;

/** The likely causes for other programs. Stateless. */
final class DiagnosisJson {
  private static final int SHOWN = 5;

  private DiagnosisJson() {}

  static Fields of(Diagnosis diagnosis) {
    return new Fields()
        .with("outcome", key(diagnosis.outcome()))
        .with("causes", diagnosis.ranked().stream().limit(SHOWN).map(DiagnosisJson::cause).toList())
        .with("named", diagnosis.named().stream().map(DiagnosisJson::keys).toList())
        .with("unexplained", evidence(diagnosis.unexplained()))
        .with("next", diagnosis.next())
        .with("advice", diagnosis.advice());
  }

  private static Fields cause(RankedCause ranked) {
    return new Fields()
        .with("cause", key(ranked.cause()))
        .with("title", ranked.cause().title())
        .with("probability", ranked.probability())
        .with("for", evidence(ranked.evidenceFor()))
        .with("not_seen", evidence(ranked.evidenceAgainst()));
  }

  private static List<String> keys(List<RankedCause> alike) {
    return alike.stream().map(ranked -> key(ranked.cause())).toList();
  }

  private static List<Fields> evidence(List<Evidence> some) {
    return some.stream()
        .map(e -> new Fields().with("sign", key(e.sign())).with("figures", e.figures()))
        .toList();
  }

  private static String key(Enum<?> value) {
    return value.name().toLowerCase(Locale.ROOT);
  }
}
