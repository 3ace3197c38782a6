package org.benchstroke.papers;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.stream.Stream;
import org.benchstroke.aids.diagnosis.TwinAndCauses;
import org.benchstroke.bench.BenchFile.Laboratory;
import org.benchstroke.bench.InstrumentSpec;
import org.benchstroke.bench.Mounting;
import org.benchstroke.core.analysis.RestReading;
import org.benchstroke.io.instrument.Role;
import org.benchstroke.judge.Adjustment;
import org.benchstroke.judge.AsOrdered;
import org.benchstroke.judge.JudgedRun;
import org.benchstroke.judge.LimitRisks;
import org.benchstroke.judge.TestSummary;
import org.benchstroke.record.Amendment;
import org.benchstroke.record.Event;
import org.benchstroke.record.Label;
import org.benchstroke.record.RecordDigest;
import org.benchstroke.record.Seal;
import org.benchstroke.setup.Difference;
import org.benchstroke.unit.DisplayFact;

/**
 * A judged run as JSON for other programs. The keys have a fixed order, lines end in a line feed:
 * the same run gives the same bytes on any machine. What does not exist (no value, no limit,
 * infinite ν) has no key. Safe for any thread.
 */
public final class JsonReport {
  /** Version of the format; raised when a key changes its meaning or goes away. */
  public static final int FORMAT = 1;

  /** The JSON text; to be stored as UTF-8. */
  public String json(TwinAndCauses aids) {
    return json(aids, Optional.empty());
  }

  /** The same of a report that someone answers for. */
  public String json(TwinAndCauses aids, Optional<Signatory> authorised) {
    return Json.page(run(aids, authorised));
  }

  /** A unit as found and as left, each as a whole judgement with its aids. */
  public String json(
      Adjustment adjustment,
      TwinAndCauses asFound,
      TwinAndCauses asLeft,
      Optional<Signatory> authorised) {
    return Json.page(
        both(adjustment, authorised)
            .with("as_found", run(asFound, Optional.empty()))
            .with("as_left", run(asLeft, Optional.empty())));
  }

  /** The judgement alone, without the aids and the risks, which are no part of the verdict. */
  public String json(JudgedRun run, Optional<Signatory> authorised) {
    return Json.page(alone(run, authorised));
  }

  /** A unit as found and as left, each as a judgement alone. */
  public String json(Adjustment adjustment, Optional<Signatory> authorised) {
    JudgedRun found = adjustment.asFound();
    JudgedRun left = adjustment.asLeft();
    return Json.page(
        both(adjustment, authorised)
            .with("as_found", alone(found, Optional.empty()))
            .with("as_left", alone(left, Optional.empty())));
  }

  private static Fields both(Adjustment adjustment, Optional<Signatory> authorised) {
    return new Fields()
        .with("format", FORMAT)
        .with("adjusted", adjustment.done())
        .with("first_passes", adjustment.firstPasses())
        .with("units", 1)
        .with("same_unit_type_file", adjustment.sameUnitTypeFile())
        .with("authorised", authorised.map(JsonReport::authorised));
  }

  /** What its limits risk, which takes longer to work out than all the rest. */
  private static Fields risks(LimitRisks risks) {
    return new Fields()
        .with("limits", risks.each().stream().map(MeasureJson::risk).toList())
        .with("limits_together", risks.together().map(MeasureJson::together));
  }

  /** As it is within a certificate. */
  private static Fields alone(JudgedRun run, Optional<Signatory> authorised) {
    return judgement(run, authorised, new Fields()).with(instruments(run));
  }

  private static Fields judgement(JudgedRun run, Optional<Signatory> authorised, Fields risks) {
    return heading(run, authorised)
        .with(verdict(run))
        .with(record(run))
        .with("tests", run.tests().stream().map(JsonReport::test).toList())
        .with("measures", run.judgements().stream().map(MeasureJson::measure).toList())
        .with(risks)
        .with("orders", run.orders().stream().map(JsonReport::order).toList())
        .with("feedback", run.feedback().stream().map(JsonReport::reading).toList())
        .with("stem", run.stem().stream().map(JsonReport::reading).toList());
  }

  private static Fields instruments(JudgedRun run) {
    return new Fields()
        .with(
            "instruments", run.bench().instruments().stream().map(JsonReport::instrument).toList());
  }

  private static Fields run(TwinAndCauses aids, Optional<Signatory> authorised) {
    JudgedRun run = aids.run();
    return judgement(run, authorised, risks(aids.risks()))
        .with(
            "diagnosis",
            run.imported().isPresent()
                ? Optional.empty()
                : Optional.of(DiagnosisJson.of(aids.diagnosis())))
        .with("twin", TwinJson.of(aids.twin()))
        .with(instruments(run));
  }

  private static Fields heading(JudgedRun run, Optional<Signatory> authorised) {
    Map<String, Double> air = JobFacts.stated(run);
    return new Fields()
        .with("format", FORMAT)
        .with("report", ReportPages.number(run))
        .with("began_utc", ReportPages.began(run).toString())
        .with("program", run.record().opened().tool())
        .with("unit", unit(run))
        .with("bench", run.bench().name())
        .with("place", run.bench().place())
        .with("laboratory", run.bench().laboratory().map(JsonReport::laboratory))
        .with("customer", JobFacts.customer(run))
        .with("ambient", Optional.of(ambient(air)).filter(stated -> !air.isEmpty()))
        .with("authorised", authorised.map(JsonReport::authorised))
        .with("procedure", run.procedure().name())
        .with("procedure_version", run.procedure().version());
  }

  private static Fields unit(JudgedRun run) {
    Fields fields =
        new Fields()
            .with("serial", run.record().label(Label.SERIAL))
            .with("type", run.unit().name())
            .with("order", run.record().label(Label.ORDER))
            .with("operator", run.record().label(Label.OPERATOR))
            .with("signal_zero_ma", run.unit().signal().zero().milliamps())
            .with("signal_full_ma", run.unit().signal().full().milliamps())
            .with("safe_signal_ma", run.unit().safeSignal().milliamps())
            .with("on_signal_loss", run.unit().signalLoss().action().key());
    JobFacts.unit(run.record()).forEach((label, text) -> fields.with(label.key(), text));
    return fields;
  }

  private static Fields laboratory(Laboratory laboratory) {
    return new Fields().with("name", laboratory.name()).with("address", laboratory.address());
  }

  private static Fields ambient(Map<String, Double> air) {
    Fields fields = new Fields();
    for (String name : List.of(Event.Job.TEMPERATURE, Event.Job.HUMIDITY)) {
      fields.with(name, Optional.ofNullable(air.get(name)));
    }
    return fields;
  }

  private static Fields authorised(Signatory by) {
    return new Fields().with("name", by.name()).with("role", by.role());
  }

  private static Fields verdict(JudgedRun run) {
    return new Fields()
        .with("verdict", run.verdict().text())
        .with("reason", run.reason())
        .with("passed", run.passed())
        .with("complete", run.complete())
        .with("simulated", run.simulated())
        .with("stem_proven", run.stemProven())
        .with("resumed", run.record().events(Event.Resumed.class).findFirst().map(JsonReport::from))
        .with("set_up", SetUpSection.setUp(run).map(setUp -> setUp(run, setUp)))
        .with("recorded_elsewhere", run.imported().map(JsonReport::imported))
        .with("findings", run.sentences());
  }

  private static Fields from(Event.Resumed resumed) {
    return new Fields()
        .with("record", resumed.record())
        .with("sha256", resumed.sha256())
        .with("lines", resumed.lines());
  }

  private static Fields setUp(JudgedRun run, Event.SetUp setUp) {
    return new Fields()
        .with("record", setUp.record())
        .with("sha256", setUp.sha256())
        .with("begun_utc", setUp.begunUtc())
        .with("operator", setUp.operator())
        .with("how", setUp.how())
        .with("steps", setUp.steps().stream().map(JsonReport::step).toList())
        .with(
            "not_as_ordered",
            Difference.of(setUp.steps(), run.unit()).stream().map(JsonReport::difference).toList());
  }

  private static Fields step(Event.SetUpStep step) {
    Fields figures = new Fields();
    new TreeMap<>(step.figures()).forEach(figures::with);
    Fields facts = new Fields();
    new TreeMap<>(step.facts()).forEach(facts::with);
    return new Fields()
        .with("step", step.step())
        .with("outcome", step.outcome())
        .with("reason", step.reason())
        .with("figures", figures)
        .with("facts", facts);
  }

  private static Fields difference(Difference each) {
    return new Fields()
        .with("fact", each.fact().map(DisplayFact::key))
        .with("what", each.what())
        .with("found", each.found())
        .with("ordered", each.ordered())
        .with("blocks", each.blocks());
  }

  private static Fields imported(Event.Imported imported) {
    return new Fields()
        .with("what", imported.what())
        .with("file", imported.file())
        .with("sha256", imported.sha256())
        .with("columns", imported.columns())
        .with("rows", imported.rows())
        .with("dated", imported.dated());
  }

  private static Fields record(JudgedRun run) {
    Fields fields = new Fields().with("record", run.record().digest().map(JsonReport::digest));
    run.record()
        .seal()
        .ifPresent(
            seal ->
                fields
                    .with(seal(seal))
                    .with(
                        "amendments",
                        run.record().amendments().all().stream()
                            .map(JsonReport::amendment)
                            .toList()));
    return fields.with(
        "record_flaws",
        Stream.concat(run.record().flaws().stream(), run.record().doubts().stream()).toList());
  }

  private static Fields digest(RecordDigest digest) {
    return new Fields()
        .with("sha256", digest.sha256())
        .with("lines", digest.lines())
        .with("last_check", digest.lastCheck());
  }

  private static Fields seal(Seal seal) {
    return new Fields()
        .with("seal", seal.state().text())
        .with("seal_detail", seal.detail())
        .with("seal_key", seal.key().map(key -> key.fingerprint()));
  }

  private static Fields amendment(Amendment amendment) {
    return new Fields()
        .with("field", amendment.label().key())
        .with("was", amendment.was())
        .with("is", amendment.is())
        .with("by", amendment.by())
        .with("reason", amendment.reason())
        .with("utc", amendment.utc().toString())
        .with("key", amendment.key().fingerprint());
  }

  private static Fields test(TestSummary test) {
    return new Fields()
        .with("name", test.name())
        .with("outcome", test.outcome())
        .with("attempts", test.attempts())
        .with("reason", test.reason());
  }

  private static Fields order(AsOrdered order) {
    return new Fields()
        .with("what", order.what())
        .with("ordered", order.ordered())
        .with("found", order.found())
        .with("word", order.word().text())
        .with("method", order.method());
  }

  private static Fields reading(RestReading reading) {
    return new Fields()
        .with("setpoint_pct", reading.setpointPercent())
        .with("asked_pct", reading.askedPercent())
        .with("direction", reading.direction().text())
        .with("cycle", reading.cycle())
        .with("mean_pct", reading.meanPercent())
        .with("deviation_pct", reading.deviationPercent())
        .with("samples", reading.samples());
  }

  private static Fields instrument(InstrumentSpec instrument) {
    InstrumentSpec.Calibration calibration = instrument.calibration();
    return new Fields()
        .with("name", instrument.name())
        .with("roles", instrument.roles().stream().map(Role::key).toList())
        .with("maker", instrument.maker())
        .with("model", instrument.model())
        .with("serial", instrument.serial())
        .with("certificate", calibration.certificate())
        .with("calibrated", calibration.calibrated().toString())
        .with("due", calibration.due().toString())
        .with(
            "calibrated_by", Optional.of(calibration.laboratory()).filter(name -> !name.isEmpty()))
        .with("calibrated_at_c", calibration.celsius())
        .with("error_by", ErrorSources.keys(instrument))
        .with("mounting", instrument.mounting().map(JsonReport::mounting));
  }

  private static Fields mounting(Mounting mounting) {
    return new Fields()
        .with("eccentricity_mm", mounting.eccentricityMillimetres())
        .with("radius_mm", mounting.radiusMillimetres())
        .with("zero_deg", mounting.zeroDegrees())
        .with("coupling_deg", mounting.couplingDegrees());
  }
}
