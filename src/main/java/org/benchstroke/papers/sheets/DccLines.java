package org.benchstroke.papers.sheets;

import java.io.StringWriter;
import java.util.Optional;
import java.util.OptionalDouble;
import javax.xml.stream.XMLOutputFactory;
import javax.xml.stream.XMLStreamException;
import javax.xml.stream.XMLStreamWriter;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.core.quantity.Visible;
import org.benchstroke.core.uncertainty.Expanded;

/**
 * Writes the elements of a digital calibration certificate, each on a line of its own. Every text
 * is English and has the attribute that says so; what would be no XML is written out. The same
 * calls give the same bytes on any machine. For one thread.
 */
final class DccLines {
  static final String DCC = "https://ptb.de/dcc";
  static final String SI = "https://ptb.de/si";
  static final String VERSION = "3.2.1";
  static final String LANGUAGE = "en";

  /** Stands where the schema wants a text and nobody stated one. */
  static final String NOT_STATED = "not stated";

  private static final String INSTANCE = "http://www.w3.org/2001/XMLSchema-instance";

  private final StringWriter text = new StringWriter();
  private final XMLStreamWriter xml;
  private int depth;

  /** What stands in an element. */
  interface Content {
    void write() throws XMLStreamException;
  }

  DccLines() throws XMLStreamException {
    xml = XMLOutputFactory.newDefaultFactory().createXMLStreamWriter(text);
    xml.writeStartDocument("UTF-8", "1.0");
  }

  /** The whole document; to be stored as UTF-8. */
  String document(Content content) throws XMLStreamException {
    line();
    xml.writeStartElement("dcc", "digitalCalibrationCertificate", DCC);
    xml.writeNamespace("dcc", DCC);
    xml.writeNamespace("si", SI);
    xml.writeNamespace("xsi", INSTANCE);
    xml.writeAttribute("schemaVersion", VERSION);
    xml.writeAttribute(
        "xsi", INSTANCE, "schemaLocation", DCC + " https://ptb.de/dcc/v" + VERSION + "/dcc.xsd");
    inside(content);
    xml.writeEndDocument();
    xml.flush();
    return text + "\n";
  }

  /** An element that holds others. */
  void in(String name, Content content) throws XMLStreamException {
    in("dcc", DCC, name, content);
  }

  private void in(String prefix, String space, String name, Content content)
      throws XMLStreamException {
    line();
    xml.writeStartElement(prefix, name, space);
    inside(content);
  }

  private void inside(Content content) throws XMLStreamException {
    depth++;
    content.write();
    depth--;
    line();
    xml.writeEndElement();
  }

  private void line() throws XMLStreamException {
    xml.writeCharacters("\n" + "  ".repeat(depth));
  }

  /** An element that holds a word. */
  void word(String name, String value) throws XMLStreamException {
    word("dcc", DCC, name, value);
  }

  private void word(String prefix, String space, String name, String value)
      throws XMLStreamException {
    line();
    xml.writeStartElement(prefix, name, space);
    xml.writeCharacters(words(value));
    xml.writeEndElement();
  }

  /** An element that holds text for people. */
  void text(String name, String... contents) throws XMLStreamException {
    in(
        name,
        () -> {
          for (String content : contents) {
            line();
            xml.writeStartElement("dcc", "content", DCC);
            xml.writeAttribute("lang", LANGUAGE);
            xml.writeCharacters(words(content));
            xml.writeEndElement();
          }
        });
  }

  /** A number with its unit in the notation of D-SI. */
  void real(double value, String unit, Optional<Expanded> expanded) throws XMLStreamException {
    in(
        "si",
        SI,
        "real",
        () -> {
          si("value", Numbers.exact(value));
          si("unit", unit);
          if (expanded.isPresent()) {
            in("si", SI, "expandedUnc", () -> uncertainty(expanded.get()));
          }
        });
  }

  private void uncertainty(Expanded expanded) throws XMLStreamException {
    si("uncertainty", Numbers.exact(expanded.half()));
    si("coverageFactor", Numbers.exact(expanded.k()));
    si("coverageProbability", Numbers.exact(expanded.coverage()));
  }

  private void si(String name, String value) throws XMLStreamException {
    word("si", SI, name, value);
  }

  /** A named quantity. */
  void quantity(String name, OptionalDouble value, String unit) throws XMLStreamException {
    if (value.isPresent()) {
      in(
          "quantity",
          () -> {
            text("name", name);
            real(value.getAsDouble(), unit, Optional.empty());
          });
    }
  }

  /** What XML can hold, without blanks at its ends, and never nothing. */
  private static String words(String text) {
    StringBuilder kept = new StringBuilder();
    Visible.of(text)
        .codePoints()
        .map(c -> isCharacter(c) ? c : 0xFFFD)
        .forEach(kept::appendCodePoint);
    String stripped = kept.toString().strip();
    return stripped.isEmpty() ? NOT_STATED : stripped;
  }

  /** XML 1.0, production 2. */
  private static boolean isCharacter(int c) {
    return c == '\t'
        || c == '\n'
        || (c >= 0x20 && c <= 0xD7FF)
        || (c >= 0xE000 && c <= 0xFFFD)
        || c >= 0x10000;
  }
}
