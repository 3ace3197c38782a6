package org.benchstroke.papers;

import com.fasterxml.jackson.core.JsonGenerator;
import java.io.IOException;
import org.benchstroke.aids.twin.FittedValue;
import org.benchstroke.aids.twin.Misfit;
import org.benchstroke.aids.twin.Parameter;
import org.benchstroke.aids.twin.Twin;

/** Writes a twin as JSON. What was not found has no value. Stateless. */
final class TwinJson {
  private TwinJson() {}

  static void write(JsonGenerator out, Twin twin) throws IOException {
    out.writeObjectFieldStart("twin");
    out.writeBooleanField("fitted", twin.fitted());
    out.writeArrayFieldStart("parameters");
    for (Parameter p : twin.parameters()) {
      out.writeStartObject();
      out.writeStringField("key", p.key());
      out.writeStringField("title", p.title());
      if (p.found().isPresent()) {
        found(out, p.found().get());
      }
      out.writeStringField("unit", p.unit());
      out.writeStringField("note", p.note());
      out.writeEndObject();
    }
    out.writeEndArray();
    if (twin.margin().isPresent()) {
      out.writeObjectFieldStart("margin_to_hunting_pct");
      found(out, twin.margin().get());
      out.writeEndObject();
    }
    if (twin.leastStartPercent().isPresent()) {
      out.writeNumberField("least_start_pct", twin.leastStartPercent().getAsDouble());
    }
    if (twin.misfit().isPresent()) {
      misfit(out, twin.misfit().get());
    }
    out.writeArrayFieldStart("words");
    for (String words : twin.words()) {
      out.writeString(words);
    }
    out.writeEndArray();
    out.writeEndObject();
  }

  private static void found(JsonGenerator out, FittedValue found) throws IOException {
    out.writeNumberField("value", found.value());
    out.writeNumberField("u", found.half());
  }

  private static void misfit(JsonGenerator out, Misfit misfit) throws IOException {
    out.writeObjectFieldStart("misfit");
    out.writeNumberField("moves", misfit.moves());
    out.writeNumberField("rms_pct", misfit.rmsPercent());
    out.writeNumberField("noise_pct", misfit.noisePercent());
    out.writeNumberField("ratio", misfit.ratio());
    out.writeNumberField("stop_scatter_pct", misfit.stopScatterPercent());
    out.writeBooleanField("explained", misfit.explained());
    out.writeEndObject();
  }
}
