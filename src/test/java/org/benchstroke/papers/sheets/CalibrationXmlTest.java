package org.benchstroke.papers.sheets;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.File;
import java.io.StringReader;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.UnaryOperator;
import javax.xml.XMLConstants;
import javax.xml.parsers.DocumentBuilderFactory;
import javax.xml.transform.stream.StreamSource;
import javax.xml.validation.Schema;
import javax.xml.validation.SchemaFactory;
import org.benchstroke.acceptance.VirtualBench;
import org.benchstroke.judge.Judgement;
import org.benchstroke.judge.Word;
import org.benchstroke.papers.Elsewhere;
import org.junit.jupiter.api.Assumptions;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.w3c.dom.Element;
import org.w3c.dom.NodeList;
import org.xml.sax.InputSource;

/** A certificate for programs: its shape by an outline of PTB's schema, its figures by the run. */
class CalibrationXmlTest {
  /** A folder with dcc.xsd 3.2.1 and si/SI_Format.xsd of D-SI, for whoever has them. */
  private static final String XSD = System.getProperty("dcc.xsd", "");

  @TempDir static Path folder;
  private static Path found;
  private static Path left;
  private static Subject subject;
  private static Element root;

  @BeforeAll
  static void runIt() throws Exception {
    found = record("zero-shift", 0, "found.jsonl");
    left = record("healthy-b", 900_000_000_000L, "left.jsonl");
    subject = Issues.subject(left);
    root = parse(text(subject, Issues.issue()));
  }

  private static Path record(String simulation, long nanos, String name) {
    VirtualBench bench = VirtualBench.with(simulation);
    bench.clock().waitUntil(nanos);
    return RealRecord.of(bench, folder.resolve(name));
  }

  private static String text(Subject subject, Issue issue) {
    return new CalibrationXml(subject, issue, "DE").text();
  }

  private static Element parse(String text) throws Exception {
    DocumentBuilderFactory factory = DocumentBuilderFactory.newDefaultInstance();
    factory.setNamespaceAware(true);
    factory.setFeature(XMLConstants.FEATURE_SECURE_PROCESSING, true);
    return factory
        .newDocumentBuilder()
        .parse(new InputSource(new StringReader(text)))
        .getDocumentElement();
  }

  private static List<Element> all(Element in, String space, String name) {
    NodeList found = in.getElementsByTagNameNS(space, name);
    List<Element> all = new ArrayList<>();
    for (int i = 0; i < found.getLength(); i++) {
      all.add((Element) found.item(i));
    }
    return all;
  }

  private static Element child(Element in, String... names) {
    Element at = in;
    for (String name : names) {
      at =
          DccOutline.children(at).stream()
              .filter(each -> each.getLocalName().equals(name))
              .findFirst()
              .orElseThrow(() -> new AssertionError("no " + name));
    }
    return at;
  }

  private static String said(Element in, String... names) {
    return child(in, names).getTextContent().strip();
  }

  @Test
  void itHasTheShapeOfTheSchema() throws Exception {
    assertThat(DccOutline.mistakes(root)).isEmpty();
    Element both = parse(text(Issues.subject(found, left), Issues.issue()));
    assertThat(DccOutline.mistakes(both)).isEmpty();
    assertThat(DccOutline.used(both))
        .contains(
            "coreDataType",
            "measuringEquipmentType",
            "conditionType",
            "quantityType",
            "statementMetaDataType",
            "stringConformityStatementStatusType");
  }

  /** What the outline must refuse, or it would prove nothing. */
  @Test
  void aWrongShapeIsSeen() throws Exception {
    Map<String, UnaryOperator<String>> spoilt =
        Map.of(
            "not in coreDataType", t -> t.replace("dcc:issueDate", "dcc:dateOfIssue"),
            "is missing", t -> t.replaceAll("(?s)<dcc:usedLangCodeISO639_1>.*?</[^>]+>", ""),
            "is not pass", t -> t.replace(">pass</dcc:conformity>", ">passed</dcc:conformity>"),
            "is not [A-Z]{2}", t -> t.replace(">DE<", ">Germany<"),
            "/@lang", t -> t.replaceFirst(" lang=\"en\"", ""),
            "holds [unit, value",
                t -> t.replaceAll("(<si:value>.*?</si:value>)\\s*(<si:unit>.*?</si:unit>)", "$2$1"),
            "/unit", t -> t.replace("\\percent<", "%<"),
            "/k", t -> t.replaceAll("<si:coverageFactor>[\\d.]+", "<si:coverageFactor>0.9"));
    String text = text(subject, Issues.issue());
    for (Map.Entry<String, UnaryOperator<String>> each : spoilt.entrySet()) {
      String other = each.getValue().apply(text);
      assertThat(other).as(each.getKey()).isNotEqualTo(text);
      assertThat(DccOutline.mistakes(parse(other)))
          .as(each.getKey())
          .anyMatch(mistake -> mistake.contains(each.getKey()));
    }
  }

  /** The schema itself is LGPL and not part of the sources: -Ddcc.xsd=FOLDER names it. */
  @Test
  void itIsValidByTheSchemaItself() throws Exception {
    Assumptions.assumeFalse(XSD.isEmpty(), "-Ddcc.xsd names no folder with the XSDs");
    SchemaFactory factory = SchemaFactory.newDefaultInstance();
    factory.setProperty(XMLConstants.ACCESS_EXTERNAL_SCHEMA, "file");
    factory.setResourceResolver(new LocalSchemas(Path.of(XSD)));
    Schema schema = factory.newSchema(new File(XSD, "dcc.xsd"));
    for (String each :
        List.of(text(subject, Issues.issue()), text(Issues.subject(found, left), Issues.issue()))) {
      schema.newValidator().validate(new StreamSource(new StringReader(each)));
    }
  }

  @Test
  void everyFigureIsThatOfTheJudgement() {
    List<Element> results = all(root, DccLines.DCC, "result");
    List<Judgement> judged = subject.judged().judgements();
    assertThat(results).hasSameSizeAs(judged).hasSizeGreaterThan(10);
    int withWord = 0;
    for (int i = 0; i < judged.size(); i++) {
      Judgement j = judged.get(i);
      Element quantity = child(results.get(i), "data", "quantity");
      if (j.measure().value().isPresent()) {
        Element real = child(quantity, "real");
        assertThat(Double.parseDouble(said(real, "value"))).isEqualTo(j.measure().value().get());
        double half = j.measure().budget().orElseThrow().expand(0.95).half();
        Element unc = child(real, "expandedUnc");
        assertThat(Double.parseDouble(said(unc, "uncertainty"))).isEqualTo(half);
        assertThat(said(unc, "coverageProbability")).isEqualTo("0.95");
      }
      if (j.word().equals(Optional.of(Word.PASS))) {
        withWord++;
        Element meta = child(quantity, "measurementMetaData", "metaData");
        assertThat(said(meta, "conformity")).isEqualTo("pass");
        assertThat(said(meta, "convention")).isEqualTo("ILAC-G8:09/2019");
        assertThat(said(meta, "declaration")).contains("decision rule: guard band w = U");
      }
    }
    assertThat(withWord).isGreaterThan(5);
  }

  @Test
  void whoWhatAndWhen() {
    Element admin = child(root, "administrativeData");
    Element core = child(admin, "coreData");
    assertThat(said(core, "uniqueIdentifier")).isEqualTo("BS-QT-104-0231-20260601T081500Z");
    assertThat(said(core, "beginPerformanceDate")).isEqualTo("2026-06-01");
    assertThat(said(core, "issueDate")).isEqualTo("2026-06-03");
    assertThat(said(core, "identifications", "identification", "value")).isEqualTo("PO 4711");
    assertThat(said(child(admin, "items", "item", "identifications"), "identification", "value"))
        .isEqualTo("QT-104-0231");
    assertThat(said(admin, "calibrationLaboratory", "contact", "name"))
        .isEqualTo("Harbour Lane Actuator Service (invented)");
    assertThat(said(admin, "respPersons", "respPerson", "person", "name"))
        .isEqualTo("A. Sample (invented)");
    assertThat(said(admin, "customer", "name")).isEqualTo("Invented Pumps");
    assertThat(said(child(admin, "statements"), "statement", "conformity")).isEqualTo("pass");
    assertThat(said(admin, "statements"))
        .contains("STEM NOT PROVEN")
        .contains("no claim of accreditation")
        .contains("scratched lid");
    Element result = child(root, "measurementResults", "measurementResult");
    Element air = child(result, "influenceConditions", "influenceCondition", "data", "quantity");
    assertThat(said(air, "real", "value")).isEqualTo("22.5");
    assertThat(said(air, "real", "unit")).isEqualTo("\\degreecelsius");
    assertThat(all(result, DccLines.DCC, "measuringEquipment"))
        .hasSameSizeAs(subject.judged().bench().instruments());
  }

  @Test
  void asFoundAndAsLeftAreTwoResults() throws Exception {
    Element both = parse(text(Issues.subject(found, left), Issues.issue()));
    List<Element> results = all(both, DccLines.DCC, "measurementResult");
    assertThat(results).hasSize(2);
    assertThat(said(results.get(0), "name")).endsWith("as found");
    assertThat(all(results.get(0), DccLines.DCC, "status").get(0).getTextContent())
        .isEqualTo("beforeAdjustment");
    assertThat(all(results.get(1), DccLines.DCC, "status").get(0).getTextContent())
        .isEqualTo("afterAdjustment");
    List<String> words =
        all(child(both, "administrativeData", "statements"), DccLines.DCC, "conformity").stream()
            .map(Element::getTextContent)
            .toList();
    assertThat(words).containsExactly("fail", "pass");
  }

  /** A program that reads it sees no watermark: what is no certificate is none here. */
  @Test
  void whatIsNoCertificateIsRefused() throws Exception {
    Path simulated = VirtualBench.with("healthy-b").runInto(folder.resolve("simulated.jsonl"));
    CalibrationXml xml = new CalibrationXml(Issues.subject(simulated), Issues.issue(), "DE");
    assertThat(xml.obstacles())
        .contains("The unit was simulated. No real unit was tested.")
        .contains("The record is not sealed.");
    assertThatThrownBy(xml::text).isInstanceOf(IllegalStateException.class);
    assertThat(new CalibrationXml(subject, Issues.unauthorised(), "DE").obstacles())
        .containsExactlyInAnyOrder("The issuing shop is not stated.", "Nobody has authorised it.");
  }

  @Test
  void theSameIsTheSameBytesAndHostileWordsAreWords() throws Exception {
    String text = text(subject, Issues.issue());
    String there = Elsewhere.call(() -> text(subject, Issues.issue()));
    assertThat(there).isEqualTo(text);
    Issue i = Issues.issue();
    String hostile = "  a<b>&\"]]>\u0001\ufffe\ud800 \r\n ";
    Issue other =
        new Issue(
            i.letterhead(),
            i.size(),
            i.language(),
            i.issued(),
            i.zone(),
            i.authorised(),
            i.program(),
            new Issue.Said(hostile, "", ""),
            Edition.FIRST);
    Element read = parse(text(subject, other));
    assertThat(DccOutline.mistakes(read)).isEmpty();
    assertThat(said(read, "administrativeData", "statements"))
        .contains("a<b>&\"]]>\\u0001\ufffd\ufffd");
  }
}
