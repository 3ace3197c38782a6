package org.benchstroke.papers;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonGenerator;
import com.fasterxml.jackson.core.StreamWriteFeature;
import com.fasterxml.jackson.core.util.DefaultIndenter;
import com.fasterxml.jackson.core.util.DefaultPrettyPrinter;
import java.io.IOException;
import java.io.StringWriter;
import java.io.UncheckedIOException;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.stream.Stream;
import org.benchstroke.aids.diagnosis.TwinAndCauses;
import org.benchstroke.bench.InstrumentSpec;
import org.benchstroke.bench.Mounting;
import org.benchstroke.core.analysis.RestReading;
import org.benchstroke.core.uncertainty.Budget;
import org.benchstroke.core.uncertainty.Component;
import org.benchstroke.core.uncertainty.Expanded;
import org.benchstroke.io.instrument.Role;
import org.benchstroke.judge.Adjustment;
import org.benchstroke.judge.AsOrdered;
import org.benchstroke.judge.JointRisk;
import org.benchstroke.judge.JudgedRun;
import org.benchstroke.judge.Judgement;
import org.benchstroke.judge.LimitRisk;
import org.benchstroke.judge.Measure;
import org.benchstroke.judge.TestSummary;
import org.benchstroke.record.Amendment;
import org.benchstroke.record.Event;
import org.benchstroke.record.Label;
import org.benchstroke.record.RecordDigest;
import org.benchstroke.record.Seal;
import org.benchstroke.unit.Limit;

/**
 * A judged run as JSON for other programs. The keys have a fixed order, numbers are the shortest
 * that read back as the same double, lines end in a line feed: the same run gives the same bytes on
 * any machine. What does not exist (no value, no limit, infinite ν) has no key. Safe for any
 * thread.
 */
public final class JsonReport {
  /** Version of the format; raised when a key changes its meaning or goes away. */
  public static final int FORMAT = 1;

  // the fast writer: Double.toString gives other digits before Java 19 (JDK-4511638)
  private final JsonFactory factory =
      JsonFactory.builder().enable(StreamWriteFeature.USE_FAST_DOUBLE_WRITER).build();

  /** The JSON text; to be stored as UTF-8. */
  public String json(TwinAndCauses aids) {
    return json(aids, Optional.empty());
  }

  /** The same of a report that someone answers for. */
  public String json(TwinAndCauses aids, Optional<Authorised> authorised) {
    return text(out -> write(out, aids, authorised));
  }

  /** A unit as found and as left, each as a whole judgement with its aids. */
  public String json(
      Adjustment adjustment,
      TwinAndCauses asFound,
      TwinAndCauses asLeft,
      Optional<Authorised> authorised) {
    return text(
        out -> {
          out.writeStartObject();
          out.writeNumberField("format", FORMAT);
          out.writeStringField("adjusted", adjustment.done());
          out.writeNumberField("first_passes", adjustment.firstPasses());
          out.writeNumberField("units", 1);
          out.writeBooleanField("same_unit_type_file", adjustment.sameUnitTypeFile());
          if (authorised.isPresent()) {
            authorised(out, authorised.get());
          }
          out.writeFieldName("as_found");
          write(out, asFound, Optional.empty());
          out.writeFieldName("as_left");
          write(out, asLeft, Optional.empty());
          out.writeEndObject();
        });
  }

  /** Writes a whole value. */
  private interface Content {
    void write(JsonGenerator out) throws IOException;
  }

  private String text(Content content) {
    StringWriter text = new StringWriter();
    DefaultIndenter indenter = new DefaultIndenter("  ", "\n");
    DefaultPrettyPrinter printer = new DefaultPrettyPrinter().withObjectIndenter(indenter);
    printer.indentArraysWith(indenter);
    try (JsonGenerator out = factory.createGenerator(text)) {
      out.setPrettyPrinter(printer);
      content.write(out);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return text.append('\n').toString();
  }

  private static void authorised(JsonGenerator out, Authorised by) throws IOException {
    out.writeObjectFieldStart("authorised");
    out.writeStringField("name", by.name());
    out.writeStringField("role", by.role());
    out.writeEndObject();
  }

  private static void write(JsonGenerator out, TwinAndCauses aids, Optional<Authorised> authorised)
      throws IOException {
    JudgedRun run = aids.run();
    out.writeStartObject();
    out.writeNumberField("format", FORMAT);
    out.writeStringField("report", ReportPages.number(run));
    out.writeStringField("began_utc", ReportPages.began(run).toString());
    out.writeStringField("program", run.record().opened().tool());
    unit(out, run);
    out.writeStringField("bench", run.bench().name());
    out.writeStringField("place", run.bench().place());
    job(out, run);
    if (authorised.isPresent()) {
      authorised(out, authorised.get());
    }
    out.writeStringField("procedure", run.procedure().name());
    out.writeStringField("procedure_version", run.procedure().version());
    out.writeStringField("verdict", run.verdict().text());
    out.writeStringField("reason", run.reason());
    out.writeBooleanField("passed", run.passed());
    out.writeBooleanField("complete", run.complete());
    out.writeBooleanField("simulated", run.simulated());
    out.writeBooleanField("stem_proven", run.stemProven());
    if (run.imported().isPresent()) {
      imported(out, run.imported().get());
    }
    texts(out, "findings", run.sentences());
    if (run.record().digest().isPresent()) {
      record(out, run.record().digest().get());
    }
    if (run.record().seal().isPresent()) {
      seal(out, run.record().seal().get());
      array(out, "amendments", run.record().amendments().all(), JsonReport::amendment);
    }
    texts(out, "record_flaws", flaws(run));
    array(out, "tests", run.tests(), JsonReport::test);
    array(out, "measures", run.judgements(), JsonReport::measure);
    array(out, "limits", LimitRisk.of(run.judgements()), JsonReport::risk);
    if (JointRisk.of(run.judgements()).isPresent()) {
      together(out, JointRisk.of(run.judgements()).get());
    }
    array(out, "orders", run.orders(), JsonReport::order);
    array(out, "feedback", run.feedback(), JsonReport::reading);
    array(out, "stem", run.stem(), JsonReport::reading);
    if (run.imported().isEmpty()) {
      DiagnosisJson.write(out, aids.diagnosis());
    }
    TwinJson.write(out, aids.twin());
    array(out, "instruments", run.bench().instruments(), JsonReport::instrument);
    out.writeEndObject();
  }

  private static void job(JsonGenerator out, JudgedRun run) throws IOException {
    if (run.bench().laboratory().isPresent()) {
      out.writeObjectFieldStart("laboratory");
      out.writeStringField("name", run.bench().laboratory().get().name());
      out.writeStringField("address", run.bench().laboratory().get().address());
      out.writeEndObject();
    }
    if (JobFacts.customer(run).isPresent()) {
      out.writeStringField("customer", JobFacts.customer(run).get());
    }
    if (!JobFacts.stated(run).isEmpty()) {
      out.writeObjectFieldStart("ambient");
      for (String name : List.of(Event.Job.TEMPERATURE, Event.Job.HUMIDITY)) {
        number(out, name, value(JobFacts.stated(run).get(name)));
      }
      out.writeEndObject();
    }
  }

  private static OptionalDouble value(Double stated) {
    return stated == null ? OptionalDouble.empty() : OptionalDouble.of(stated);
  }

  private static void record(JsonGenerator out, RecordDigest digest) throws IOException {
    out.writeObjectFieldStart("record");
    out.writeStringField("sha256", digest.sha256());
    out.writeNumberField("lines", digest.lines());
    out.writeStringField("last_check", digest.lastCheck());
    out.writeEndObject();
  }

  private static void seal(JsonGenerator out, Seal seal) throws IOException {
    out.writeStringField("seal", seal.state().text());
    out.writeStringField("seal_detail", seal.detail());
    if (seal.key().isPresent()) {
      out.writeStringField("seal_key", seal.key().get().fingerprint());
    }
  }

  private static void amendment(JsonGenerator out, Amendment amendment) throws IOException {
    out.writeStringField("field", amendment.label().key());
    out.writeStringField("was", amendment.was());
    out.writeStringField("is", amendment.is());
    out.writeStringField("by", amendment.by());
    out.writeStringField("reason", amendment.reason());
    out.writeStringField("utc", amendment.utc().toString());
    out.writeStringField("key", amendment.key().fingerprint());
  }

  private static List<String> flaws(JudgedRun run) {
    return Stream.concat(run.record().flaws().stream(), run.record().doubts().stream()).toList();
  }

  private static void imported(JsonGenerator out, Event.Imported imported) throws IOException {
    out.writeObjectFieldStart("recorded_elsewhere");
    out.writeStringField("what", imported.what());
    out.writeStringField("file", imported.file());
    out.writeStringField("sha256", imported.sha256());
    texts(out, "columns", imported.columns());
    out.writeNumberField("rows", imported.rows());
    out.writeBooleanField("dated", imported.dated());
    out.writeEndObject();
  }

  private static void unit(JsonGenerator out, JudgedRun run) throws IOException {
    out.writeObjectFieldStart("unit");
    out.writeStringField("serial", run.record().label(Label.SERIAL));
    out.writeStringField("type", run.unit().name());
    out.writeStringField("order", run.record().label(Label.ORDER));
    out.writeStringField("operator", run.record().label(Label.OPERATOR));
    out.writeNumberField("signal_zero_ma", run.unit().signal().zero().milliamps());
    out.writeNumberField("signal_full_ma", run.unit().signal().full().milliamps());
    out.writeNumberField("safe_signal_ma", run.unit().safeSignal().milliamps());
    out.writeStringField("on_signal_loss", run.unit().signalLoss().action().key());
    out.writeEndObject();
  }

  private static void test(JsonGenerator out, TestSummary test) throws IOException {
    out.writeStringField("name", test.name());
    out.writeStringField("outcome", test.outcome());
    out.writeNumberField("attempts", test.attempts());
    out.writeStringField("reason", test.reason());
  }

  private static void measure(JsonGenerator out, Judgement judgement) throws IOException {
    Measure measure = judgement.measure();
    out.writeStringField("kind", measure.kind().key());
    out.writeStringField("title", measure.kind().title());
    out.writeStringField("place", measure.place().words());
    out.writeStringField("truth", measure.truth().text());
    number(out, "value", optional(measure));
    out.writeStringField("unit", measure.kind().unit());
    if (measure.budget().isPresent()) {
      uncertainty(out, measure.budget().get().expand(Figures.COVERAGE));
      out.writeStringField("k_basis", basis(measure.budget().get()));
      number(out, "accuracy_ratio", judgement.accuracyRatio());
    }
    if (judgement.limit().isPresent()) {
      limit(out, judgement.limit().get());
    }
    if (judgement.word().isPresent()) {
      out.writeStringField("word", judgement.word().get().text());
    }
    number(out, "probability", judgement.probability());
    out.writeStringField("speaks_of", measure.scope().key());
    out.writeStringField("method", measure.method());
    out.writeStringField("note", measure.note());
    if (measure.budget().isPresent()) {
      Budget budget = measure.budget().get();
      array(out, "budget", budget.components(), (o, c) -> component(o, budget, c));
    }
  }

  private static String basis(Budget budget) {
    return switch (budget.basis()) {
      case DRAWS -> "draws";
      case SHAPE -> "shape of the sum";
      case STUDENT -> "Student's t";
      case NORMAL -> "normal";
    };
  }

  private static void component(JsonGenerator out, Budget budget, Component c) throws IOException {
    out.writeStringField("source", c.source());
    out.writeStringField("evaluation", evaluation(c));
    number(out, "known", OptionalDouble.of(c.known()));
    out.writeStringField("unit", c.unit().isEmpty() ? budget.unit() : c.unit());
    number(out, "divisor", OptionalDouble.of(c.divisor()));
    number(out, "standard", OptionalDouble.of(c.standard()));
    number(out, "sensitivity", OptionalDouble.of(c.sensitivity()));
    number(out, "contribution", OptionalDouble.of(c.contribution()));
    number(out, "nu", OptionalDouble.of(c.degreesOfFreedom()));
  }

  private static String evaluation(Component component) {
    return switch (component.evaluation()) {
      case TYPE_A -> "A";
      case TYPE_B_RECTANGULAR -> "B rectangular";
      case TYPE_B_NORMAL -> "B normal";
    };
  }

  private static void risk(JsonGenerator out, LimitRisk risk) throws IOException {
    out.writeStringField("kind", risk.limit().measure().key());
    limit(out, risk.limit());
    out.writeStringField("widest_at", risk.widest().measure().place().words());
    out.writeStringField("speaks_of", risk.widest().measure().scope().key());
    number(out, "u", OptionalDouble.of(risk.half()));
    number(out, "accuracy_ratio", OptionalDouble.of(risk.ratio()));
    number(out, "guard_band", OptionalDouble.of(risk.guard()));
    number(out, "false_accept", risk.falseAccept());
    number(out, "false_reject", OptionalDouble.of(risk.falseReject()));
    if (risk.all().isPresent()) {
      number(out, "assumed_conforming", OptionalDouble.of(LimitRisk.ASSUMED_CONFORMING));
      number(out, "accepted_wrongly", OptionalDouble.of(risk.all().get().consumer()));
      number(out, "not_accepted_wrongly", OptionalDouble.of(risk.all().get().producer()));
    }
  }

  private static void together(JsonGenerator out, JointRisk joint) throws IOException {
    out.writeObjectFieldStart("limits_together");
    out.writeNumberField("values", joint.values());
    out.writeNumberField("limits", joint.limits());
    out.writeNumberField("passes", joint.passes());
    number(out, "all_conform_at_least", OptionalDouble.of(joint.allAtLeast()));
    number(out, "all_conform_at_most", OptionalDouble.of(joint.allAtMost()));
    number(out, "all_conform_if_independent", OptionalDouble.of(joint.allIfIndependent()));
    number(out, "wrong_pass_at_most", OptionalDouble.of(joint.wrongPassAtMost()));
    number(out, "wrong_pass_if_independent", OptionalDouble.of(joint.wrongPassIfIndependent()));
    number(out, "wrong_pass_worst", joint.wrongPassWorst());
    out.writeEndObject();
  }

  private static OptionalDouble optional(Measure measure) {
    return measure.value().map(OptionalDouble::of).orElse(OptionalDouble.empty());
  }

  private static void uncertainty(JsonGenerator out, Expanded expanded) throws IOException {
    number(out, "u", OptionalDouble.of(expanded.half()));
    number(out, "k", OptionalDouble.of(expanded.k()));
    number(out, "nu", OptionalDouble.of(expanded.degreesOfFreedom()));
    number(out, "coverage", OptionalDouble.of(expanded.coverage()));
  }

  private static void limit(JsonGenerator out, Limit limit) throws IOException {
    number(out, "limit_low", limit.low());
    number(out, "limit_high", limit.high());
    out.writeNumberField("guard_factor", limit.rule().guardFactor());
  }

  private static void order(JsonGenerator out, AsOrdered order) throws IOException {
    out.writeStringField("what", order.what());
    out.writeStringField("ordered", order.ordered());
    out.writeStringField("found", order.found());
    out.writeStringField("word", order.word().text());
    out.writeStringField("method", order.method());
  }

  private static void reading(JsonGenerator out, RestReading reading) throws IOException {
    number(out, "setpoint_pct", OptionalDouble.of(reading.setpointPercent()));
    number(out, "asked_pct", OptionalDouble.of(reading.askedPercent()));
    out.writeStringField("direction", reading.direction().text());
    out.writeNumberField("cycle", reading.cycle());
    number(out, "mean_pct", OptionalDouble.of(reading.meanPercent()));
    number(out, "deviation_pct", OptionalDouble.of(reading.deviationPercent()));
    out.writeNumberField("samples", reading.samples());
  }

  private static void instrument(JsonGenerator out, InstrumentSpec instrument) throws IOException {
    out.writeStringField("name", instrument.name());
    texts(out, "roles", instrument.roles().stream().map(Role::key).toList());
    out.writeStringField("maker", instrument.maker());
    out.writeStringField("model", instrument.model());
    out.writeStringField("serial", instrument.serial());
    out.writeStringField("certificate", instrument.calibration().certificate());
    out.writeStringField("calibrated", instrument.calibration().calibrated().toString());
    out.writeStringField("due", instrument.calibration().due().toString());
    if (!instrument.calibration().laboratory().isEmpty()) {
      out.writeStringField("calibrated_by", instrument.calibration().laboratory());
    }
    number(out, "calibrated_at_c", instrument.calibration().celsius());
    out.writeObjectFieldStart("error_by");
    for (Map.Entry<String, String> each : ErrorSources.keys(instrument).entrySet()) {
      out.writeStringField(each.getKey(), each.getValue());
    }
    out.writeEndObject();
    if (instrument.mounting().isPresent()) {
      mounting(out, instrument.mounting().get());
    }
  }

  private static void mounting(JsonGenerator out, Mounting mounting) throws IOException {
    out.writeObjectFieldStart("mounting");
    out.writeNumberField("eccentricity_mm", mounting.eccentricityMillimetres());
    out.writeNumberField("radius_mm", mounting.radiusMillimetres());
    out.writeNumberField("zero_deg", mounting.zeroDegrees());
    out.writeNumberField("coupling_deg", mounting.couplingDegrees());
    out.writeEndObject();
  }

  /** JSON has no infinity and no NaN: what isn't a finite number has no key. */
  private static void number(JsonGenerator out, String key, OptionalDouble value)
      throws IOException {
    if (value.isPresent() && Double.isFinite(value.getAsDouble())) {
      out.writeNumberField(key, value.getAsDouble());
    }
  }

  private static void texts(JsonGenerator out, String key, List<String> texts) throws IOException {
    out.writeArrayFieldStart(key);
    for (String text : texts) {
      out.writeString(text);
    }
    out.writeEndArray();
  }

  private static <T> void array(JsonGenerator out, String key, List<T> items, Fields<T> fields)
      throws IOException {
    out.writeArrayFieldStart(key);
    for (T item : items) {
      out.writeStartObject();
      fields.write(out, item);
      out.writeEndObject();
    }
    out.writeEndArray();
  }

  /** Writes the fields of one object. */
  private interface Fields<T> {
    void write(JsonGenerator out, T item) throws IOException;
  }
}
