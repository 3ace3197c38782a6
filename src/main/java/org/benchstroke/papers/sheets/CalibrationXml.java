package org.benchstroke.papers.sheets;

import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Optional;
import javax.xml.stream.XMLStreamException;
import org.benchstroke.judge.JudgedRun;
import org.benchstroke.papers.Letterhead;
import org.benchstroke.papers.Signatory;
import org.benchstroke.record.Entry;
import org.benchstroke.record.Label;

/**
 * A judged run as a digital calibration certificate, XML by PTB's schema 3.2.1 with quantities by
 * D-SI. Only what is a certificate on paper is one here: whoever reads it is a program, which sees
 * no watermark. The same run and the same issue give the same bytes on any machine. Not
 * thread-safe.
 */
public final class CalibrationXml {
  private final Subject subject;
  private final Issue issue;
  private final String country;

  /**
   * Of this.
   *
   * @param country where it is issued, two capital letters of ISO 3166-1
   */
  public CalibrationXml(Subject subject, Issue issue, String country) {
    this.subject = subject;
    this.issue = issue;
    this.country = country;
  }

  /** Why it can't be one, a sentence each; empty if it can. */
  public List<String> obstacles() {
    return Papers.obstacles(subject, issue);
  }

  /**
   * The document; to be stored as UTF-8.
   *
   * @throws IllegalStateException if there are obstacles
   */
  public String text() {
    if (!obstacles().isEmpty()) {
      throw new IllegalStateException("it is no certificate: " + obstacles());
    }
    try {
      DccLines lines = new DccLines();
      return lines.document(
          () -> {
            lines.in("administrativeData", () -> administration(lines));
            lines.in("measurementResults", () -> results(lines));
          });
    } catch (XMLStreamException e) {
      throw new IllegalStateException("a text in memory can be written", e);
    }
  }

  private void administration(DccLines lines) throws XMLStreamException {
    lines.in("dccSoftware", () -> DccResults.software(lines, issue.program()));
    lines.in("coreData", () -> core(lines));
    lines.in("items", () -> items(lines));
    lines.in("calibrationLaboratory", () -> lines.in("contact", () -> laboratory(lines)));
    lines.in("respPersons", () -> lines.in("respPerson", () -> person(lines)));
    lines.in("customer", () -> customer(lines));
    lines.in("statements", () -> new DccStatements(lines, subject, issue).write());
  }

  private void results(DccLines lines) throws XMLStreamException {
    for (Filed filed : subject.all()) {
      lines.in("measurementResult", () -> new DccResults(lines, subject, filed).write());
    }
  }

  private JudgedRun run() {
    return subject.judged();
  }

  private void core(DccLines lines) throws XMLStreamException {
    lines.word("countryCodeISO3166_1", country);
    lines.word("usedLangCodeISO639_1", DccLines.LANGUAGE);
    lines.word("mandatoryLangCodeISO639_1", DccLines.LANGUAGE);
    lines.word("uniqueIdentifier", issue.number(subject));
    String order = label(Label.ORDER);
    if (!order.isBlank()) {
      lines.in("identifications", () -> identification(lines, "customer", order, "Order"));
    }
    Optional<String> received = Optional.of(label(Label.RECEIVED)).filter(day -> !day.isBlank());
    if (received.isPresent()) {
      lines.word("receiptDate", received.get());
    }
    JudgedRun first = subject.all().get(0).run();
    lines.word("beginPerformanceDate", day(first, first.record().entries().get(0)));
    List<Entry> entries = run().record().entries();
    lines.word("endPerformanceDate", day(run(), entries.get(entries.size() - 1)));
    lines.word("performanceLocation", "laboratory");
    lines.word("issueDate", LocalDate.ofInstant(issue.issued(), issue.zone()).toString());
    Optional<Edition.Superseded> superseded = issue.edition().superseded();
    if (superseded.isPresent()) {
      lines.in("reportAmendedSubstituted", () -> substituted(lines, superseded.get()));
    }
  }

  private static void substituted(DccLines lines, Edition.Superseded was)
      throws XMLStreamException {
    lines.word("typeOfChange", "substituted");
    lines.word("replacedUniqueIdentifier", was.number());
  }

  /** By the clock on the bench's wall. */
  private static String day(JudgedRun run, Entry entry) {
    ZoneOffset offset = run.record().offset();
    return LocalDate.ofInstant(entry.utc(), offset).toString();
  }

  private String label(Label label) {
    return run().record().label(label);
  }

  static void identification(DccLines lines, String issuer, String value, String name)
      throws XMLStreamException {
    lines.in(
        "identification",
        () -> {
          lines.word("issuer", issuer);
          lines.word("value", value);
          lines.text("name", name);
        });
  }

  private void items(DccLines lines) throws XMLStreamException {
    lines.in("item", () -> actuator(lines));
    if (!label(Label.VALVE_SERIAL).isBlank()) {
      lines.in("item", () -> valve(lines));
    }
  }

  private void actuator(DccLines lines) throws XMLStreamException {
    lines.text("name", run().unit().name());
    maker(lines, Label.ACTUATOR_MAKER, Label.ACTUATOR_MODEL);
    lines.in(
        "identifications",
        () -> {
          identification(lines, "manufacturer", label(Label.SERIAL), "Serial number");
          if (!label(Label.TAG).isBlank()) {
            identification(lines, "customer", label(Label.TAG), "Tag");
          }
        });
  }

  private void valve(DccLines lines) throws XMLStreamException {
    lines.text("name", "The valve that it drives; not tested by itself");
    maker(lines, Label.VALVE_MAKER, Label.VALVE_MODEL);
    lines.in(
        "identifications",
        () -> identification(lines, "manufacturer", label(Label.VALVE_SERIAL), "Serial number"));
  }

  private void maker(DccLines lines, Label maker, Label model) throws XMLStreamException {
    if (!label(maker).isBlank()) {
      lines.in("manufacturer", () -> lines.text("name", label(maker)));
    }
    if (!label(model).isBlank()) {
      lines.word("model", label(model));
    }
  }

  private void laboratory(DccLines lines) throws XMLStreamException {
    Letterhead shop = issue.letterhead().orElseThrow();
    lines.text("name", shop.name());
    lines.in(
        "location",
        () -> {
          lines.word("countryCode", country);
          if (!shop.address().isEmpty()) {
            lines.text("further", shop.address().toArray(String[]::new));
          }
        });
  }

  private void person(DccLines lines) throws XMLStreamException {
    Signatory by = issue.authorised().orElseThrow();
    lines.in("person", () -> lines.text("name", by.name()));
    lines.word("role", by.role());
    lines.word("mainSigner", "true");
  }

  private void customer(DccLines lines) throws XMLStreamException {
    lines.text("name", label(Label.CUSTOMER));
    lines.in("location", () -> lines.text("further", DccLines.NOT_STATED));
  }
}
