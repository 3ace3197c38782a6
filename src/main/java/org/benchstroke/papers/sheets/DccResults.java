package org.benchstroke.papers.sheets;

import java.util.LinkedHashSet;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.stream.Collectors;
import javax.xml.stream.XMLStreamException;
import org.benchstroke.bench.InstrumentSpec;
import org.benchstroke.io.instrument.Role;
import org.benchstroke.judge.AsOrdered;
import org.benchstroke.judge.JudgedRun;
import org.benchstroke.judge.Judgement;
import org.benchstroke.judge.Measure;
import org.benchstroke.judge.Scope;
import org.benchstroke.papers.Figures;
import org.benchstroke.papers.Methods;
import org.benchstroke.papers.ReportPages;
import org.benchstroke.record.Event;
import org.benchstroke.record.RecordDigest;
import org.benchstroke.unit.Limit;

/** The results of a run in a digital calibration certificate. For one thread. */
final class DccResults {
  /** The units of the measures as D-SI writes them, by SI Brochure, 9th edition. */
  private static final Map<String, String> UNITS =
      Map.of(
          "%", "\\percent",
          "s", "\\second",
          "°", "\\degree",
          "V", "\\volt",
          "%/s", "\\percent\\second\\tothe{-1}",
          "/min", "\\minute\\tothe{-1}",
          "/h", "\\hour\\tothe{-1}");

  private final DccLines lines;
  private final Subject subject;
  private final Filed filed;
  private final JudgedRun run;

  DccResults(DccLines lines, Subject subject, Filed filed) {
    this.lines = lines;
    this.subject = subject;
    this.filed = filed;
    this.run = filed.run();
  }

  void write() throws XMLStreamException {
    lines.text("name", "Measures of the unit" + DccStatements.of(subject, filed));
    lines.text(
        "description",
        "Report "
            + ReportPages.number(run)
            + ", procedure "
            + run.procedure().name()
            + ", version "
            + run.procedure().version(),
        "Record "
            + filed.name()
            + run.record()
                .digest()
                .map(RecordDigest::sha256)
                .map(sha -> ", SHA-256 " + sha)
                .orElse(""));
    methods();
    lines.in("usedSoftware", () -> software(lines, run.record().opened().tool()));
    lines.in("measuringEquipments", this::instruments);
    conditions();
    lines.in("results", this::results);
    if (!run.orders().isEmpty()) {
      lines.in("measurementMetaData", this::orders);
    }
  }

  /** The program as the schema has it: the name apart from the version. */
  static void software(DccLines lines, String program) throws XMLStreamException {
    int blank = program.indexOf(' ');
    lines.in(
        "software",
        () -> {
          lines.text("name", blank < 0 ? program : program.substring(0, blank));
          lines.word("release", blank < 0 ? "" : program.substring(blank));
          lines.word("type", "application");
        });
  }

  private void methods() throws XMLStreamException {
    Set<String> used = new LinkedHashSet<>();
    run.judgements().forEach(judgement -> used.add(judgement.measure().method()));
    run.orders().forEach(order -> used.add(order.method()));
    // a measure that no test of the procedure takes has none
    used.removeIf(id -> Methods.of(id).isEmpty());
    if (used.isEmpty()) {
      return;
    }
    lines.in(
        "usedMethods",
        () -> {
          for (String id : used) {
            lines.in("usedMethod", () -> method(id));
          }
        });
  }

  private void method(String id) throws XMLStreamException {
    Methods.Method method = Methods.of(id).orElseThrow();
    lines.text("name", id);
    lines.text(
        "description",
        Methods.DOCUMENT + ", section \"" + method.section() + "\": " + method.source());
  }

  private void instruments() throws XMLStreamException {
    for (InstrumentSpec instrument : run.bench().instruments()) {
      lines.in("measuringEquipment", () -> instrument(instrument));
    }
  }

  private void instrument(InstrumentSpec instrument) throws XMLStreamException {
    InstrumentSpec.Calibration calibration = instrument.calibration();
    lines.text("name", instrument.name());
    lines.text(
        "description",
        instrument.roles().stream().map(Role::key).collect(Collectors.joining(", ")),
        "Calibrated "
            + calibration.calibrated()
            + ", due "
            + calibration.due()
            + ", by "
            + (calibration.laboratory().isBlank()
                ? "a laboratory that is not stated"
                : calibration.laboratory()));
    if (!instrument.maker().isBlank()) {
      lines.in("manufacturer", () -> lines.text("name", instrument.maker()));
    }
    if (!instrument.model().isBlank()) {
      lines.word("model", instrument.model());
    }
    lines.in(
        "identifications",
        () -> {
          CalibrationXml.identification(
              lines, "manufacturer", instrument.serial(), "Serial number");
          CalibrationXml.identification(
              lines, "other", calibration.certificate(), "Calibration certificate");
        });
  }

  private void conditions() throws XMLStreamException {
    Map<String, Double> air =
        run.record().events(Event.Job.class).map(Event.Job::air).findFirst().orElse(Map.of());
    if (air.isEmpty() && subject.found().isEmpty()) {
      return;
    }
    lines.in(
        "influenceConditions",
        () -> {
          condition("Temperature at the bench", air.get(Event.Job.TEMPERATURE), "\\degreecelsius");
          condition("Relative humidity at the bench", air.get(Event.Job.HUMIDITY), "\\percent");
          if (subject.found().isPresent()) {
            lines.in("influenceCondition", this::adjustment);
          }
        });
  }

  private void condition(String name, Double value, String unit) throws XMLStreamException {
    if (value != null) {
      lines.in(
          "influenceCondition",
          () -> {
            lines.text("name", name);
            lines.in("data", () -> lines.quantity(name, OptionalDouble.of(value), unit));
          });
    }
  }

  private void adjustment() throws XMLStreamException {
    boolean left = filed.equals(subject.run());
    lines.text("name", "State of the unit");
    lines.word("status", left ? "afterAdjustment" : "beforeAdjustment");
    lines.in("data", () -> lines.text("text", left ? "As left" : "As found"));
  }

  private void results() throws XMLStreamException {
    for (Judgement judgement : run.judgements()) {
      lines.in("result", () -> result(judgement));
    }
    if (run.judgements().isEmpty()) {
      lines.in(
          "result",
          () -> {
            lines.text("name", "Measures");
            lines.in("data", () -> lines.text("text", "No measure was taken."));
          });
    }
  }

  private void result(Judgement judgement) throws XMLStreamException {
    Measure measure = judgement.measure();
    lines.text("name", Figures.name(measure));
    lines.text("description", "Known by: " + measure.truth().text() + ". " + scope(measure));
    lines.in("data", () -> lines.in("quantity", () -> quantity(judgement)));
  }

  private static String scope(Measure measure) {
    return (measure.scope() == Scope.UNIT
            ? "Of the unit."
            : "Of the readings taken: how the unit scatters from one time to the next is not in U.")
        + (measure.note().isBlank() ? "" : " " + measure.note());
  }

  private void quantity(Judgement judgement) throws XMLStreamException {
    Measure measure = judgement.measure();
    lines.text("name", Figures.name(measure));
    if (measure.value().isPresent()) {
      lines.real(measure.value().get(), unit(measure), Figures.expanded(measure));
    } else {
      lines.text("noQuantity", "No value: " + measure.note());
    }
    if (Methods.of(measure.method()).isPresent()) {
      lines.in("usedMethods", () -> lines.in("usedMethod", () -> method(measure.method())));
    }
    if (judgement.limit().isPresent()) {
      lines.in(
          "measurementMetaData",
          () -> lines.in("metaData", () -> conformity(judgement, judgement.limit().get())));
    }
  }

  private static String unit(Measure measure) {
    return Optional.ofNullable(UNITS.get(measure.kind().unit()))
        .orElseThrow(() -> new IllegalStateException("no D-SI for " + measure.kind().unit()));
  }

  private void conformity(Judgement judgement, Limit limit) throws XMLStreamException {
    lines.text("name", "Conformity");
    lines.word("convention", DccStatements.CONVENTION);
    lines.text(
        "declaration",
        "Limit: " + limit.text() + "; decision rule: " + limit.rule().text(),
        "Judged: " + judgement.word().orElseThrow().text());
    Optional<String> status = DccStatements.status(judgement.word().orElseThrow());
    if (status.isPresent()) {
      lines.word("conformity", status.get());
    }
    String unit = unit(judgement.measure());
    lines.in(
        "data",
        () -> {
          lines.quantity("Lower limit", limit.low(), unit);
          lines.quantity("Upper limit", limit.high(), unit);
          lines.quantity("Probability of conformity", judgement.probability(), "\\one");
        });
  }

  private void orders() throws XMLStreamException {
    for (AsOrdered order : run.orders()) {
      lines.in(
          "metaData",
          () -> {
            lines.text("name", order.what());
            lines.text("declaration", "Ordered: " + order.ordered(), "Found: " + order.found());
            Optional<String> status = DccStatements.status(order.word());
            if (status.isPresent()) {
              lines.word("conformity", status.get());
            }
          });
    }
  }
}
