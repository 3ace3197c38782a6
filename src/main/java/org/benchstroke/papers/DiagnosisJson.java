package org.benchstroke.papers;

import com.fasterxml.jackson.core.JsonGenerator;
import java.io.IOException;
import java.util.List;
import java.util.Locale;
import org.benchstroke.aids.diagnosis.Diagnosis;
import org.benchstroke.aids.diagnosis.Evidence;
import org.benchstroke.aids.diagnosis.RankedCause;

/** Writes the likely causes as JSON. Stateless. */
final class DiagnosisJson {
  private static final int SHOWN = 5;

  private DiagnosisJson() {}

  static void write(JsonGenerator out, Diagnosis diagnosis) throws IOException {
    out.writeObjectFieldStart("diagnosis");
    out.writeStringField("outcome", key(diagnosis.outcome()));
    out.writeArrayFieldStart("causes");
    for (RankedCause r : diagnosis.ranked().stream().limit(SHOWN).toList()) {
      out.writeStartObject();
      out.writeStringField("cause", key(r.cause()));
      out.writeStringField("title", r.cause().title());
      out.writeNumberField("probability", r.probability());
      evidence(out, "for", r.evidenceFor());
      evidence(out, "not_seen", r.evidenceAgainst());
      out.writeEndObject();
    }
    out.writeEndArray();
    out.writeArrayFieldStart("named");
    for (List<RankedCause> alike : diagnosis.named()) {
      out.writeStartArray();
      for (RankedCause r : alike) {
        out.writeString(key(r.cause()));
      }
      out.writeEndArray();
    }
    out.writeEndArray();
    evidence(out, "unexplained", diagnosis.unexplained());
    if (diagnosis.next().isPresent()) {
      out.writeStringField("next", diagnosis.next().get());
    }
    out.writeStringField("advice", diagnosis.advice());
    out.writeEndObject();
  }

  private static void evidence(JsonGenerator out, String name, List<Evidence> some)
      throws IOException {
    out.writeArrayFieldStart(name);
    for (Evidence e : some) {
      out.writeStartObject();
      out.writeStringField("sign", key(e.sign()));
      out.writeStringField("figures", e.figures());
      out.writeEndObject();
    }
    out.writeEndArray();
  }

  private static String key(Enum<?> value) {
    return value.name().toLowerCase(Locale.ROOT);
  }
}
