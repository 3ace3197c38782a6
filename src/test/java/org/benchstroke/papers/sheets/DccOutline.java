package org.benchstroke.papers.sheets;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Pattern;
import org.benchstroke.ReferenceData;
import org.w3c.dom.Element;
import org.w3c.dom.Node;

/**
 * Holds a digital calibration certificate against the outline of PTB's schema 3.2.1 in {@code
 * reference/dcc-schema-outline.json}: names, types, order and multiplicities of the elements, and
 * the enumerations and patterns of words. What the outline leaves out is named in {@code
 * docs/reference/machine-readable.md}. D-SI is held against the order that its XSD 2.1.0 and 2.2.0
 * share (seen in the XSD of D-SI 2.2.0).
 */
final class DccOutline {
  private static final String DCC = "https://ptb.de/dcc";
  private static final JsonNode OUTLINE = ReferenceData.json("dcc-schema-outline.json");

  /** In these the children may stand in any order (xs:all), or any of them any number of times. */
  private static final Set<String> UNORDERED =
      Set.of("administrativeDataType", "dataType", "locationType");

  /** The outline doesn't tell a choice from a sequence: of these one stands, or none. */
  private static final Map<String, Set<String>> CHOICES =
      Map.of(
          "quantityType",
          Set.of(
              "noQuantity",
              "charsXMLList",
              "si:real",
              "si:list",
              "si:hybrid",
              "si:complex",
              "si:constant",
              "si:realListXMLList"),
          "statementMetaDataType",
          Set.of("valid", "validXMLList", "conformity", "conformityXMLList"));

  private static final Map<String, Pattern> INLINE =
      Map.of(
          "type", Pattern.compile("application|bios|driver|editor|firmware|library|os|other"),
          "issuer", Pattern.compile("manufacturer|calibrationLaboratory|customer|owner|other"),
          "status", Pattern.compile("(before|after)(Adjustment|Repair)"));

  private static final List<String> REAL = List.of("value", "unit", "expandedUnc");
  private static final List<String> UNCERTAINTY =
      List.of("uncertainty", "coverageFactor", "coverageProbability");

  private final List<String> mistakes = new ArrayList<>();
  private final Set<String> used = new TreeSet<>();

  /** What is not as the outline has it, each with where it is; empty if all is. */
  static List<String> mistakes(Element root) {
    DccOutline outline = new DccOutline();
    outline.complex(root, "digitalCalibrationCertificateType", "/");
    return outline.mistakes;
  }

  /** The types of the outline that a document uses. */
  static Set<String> used(Element root) {
    DccOutline outline = new DccOutline();
    outline.complex(root, "digitalCalibrationCertificateType", "/");
    return outline.used;
  }

  static List<Element> children(Element element) {
    List<Element> children = new ArrayList<>();
    for (Node each = element.getFirstChild(); each != null; each = each.getNextSibling()) {
      if (each instanceof Element child) {
        children.add(child);
      }
    }
    return children;
  }

  private static String name(Element element) {
    String local = element.getLocalName();
    return DCC.equals(element.getNamespaceURI()) ? local : "si:" + local;
  }

  private void complex(Element element, String type, String path) {
    used.add(type);
    JsonNode parts = OUTLINE.path("complex_types_3.2.1").path(type);
    if (parts.isMissingNode()) {
      throw new IllegalStateException("the outline has no " + type);
    }
    String where = path + name(element) + "/";
    int at = 0;
    for (Element child : children(element)) {
      Optional<JsonNode> part = part(parts, name(child));
      if (part.isEmpty()) {
        mistakes.add(where + name(child) + ": not in " + type);
        continue;
      }
      int place = indexOf(parts, name(child));
      if (place < at && !UNORDERED.contains(type)) {
        mistakes.add(where + name(child) + ": out of order");
      }
      at = Math.max(at, place);
      value(child, part.get().path("type").asText(), where);
    }
    multiplicities(element, type, parts, where);
  }

  private void multiplicities(Element element, String type, JsonNode parts, String where) {
    List<String> names = children(element).stream().map(DccOutline::name).toList();
    Set<String> choice = CHOICES.getOrDefault(type, Set.of());
    boolean free = UNORDERED.contains(type) && !type.equals("administrativeDataType");
    for (JsonNode part : parts) {
      String name = part.path("name").asText();
      long count = names.stream().filter(name::equals).count();
      boolean needed = part.path("min").asInt() > 0 && !choice.contains(name) && !free;
      if (needed && count == 0) {
        mistakes.add(where + name + ": is missing");
      }
      if (part.path("max").asText().equals("1") && count > 1 && !free) {
        mistakes.add(where + name + ": stands " + count + " times");
      }
    }
    if (free && names.isEmpty()) {
      mistakes.add(where + ": is empty");
    }
    long chosen = names.stream().filter(choice::contains).count();
    if ((type.equals("quantityType") && chosen != 1) || chosen > 1) {
      mistakes.add(where + ": " + chosen + " of " + choice);
    }
  }

  private static Optional<JsonNode> part(JsonNode parts, String name) {
    for (JsonNode part : parts) {
      if (part.path("name").asText().equals(name)) {
        return Optional.of(part);
      }
    }
    return Optional.empty();
  }

  private static int indexOf(JsonNode parts, String name) {
    for (int i = 0; i < parts.size(); i++) {
      if (parts.get(i).path("name").asText().equals(name)) {
        return i;
      }
    }
    return -1;
  }

  private void value(Element element, String type, String path) {
    String plain = type.replaceFirst("^dcc:", "");
    String where = path + name(element);
    String text = element.getTextContent();
    if (name(element).equals("si:real")) {
      real(element, where);
    } else if (plain.equals("stringWithLangType")) {
      matches(element.getAttribute("lang"), "[a-z]{2}", where + "/@lang");
    } else if (plain.equals("inline")) {
      matches(text, INLINE.get(element.getLocalName()).pattern(), where);
    } else if (plain.equals("xs:date")) {
      matches(text, "\\d{4}-\\d{2}-\\d{2}", where);
    } else if (plain.equals("xs:boolean")) {
      matches(text, "true|false", where);
    } else if (plain.equals("performanceLocationType")) {
      simple(text, "stringPerformanceLocationType", where);
    } else if (OUTLINE.path("simple_types_3.2.1").has(plain)) {
      simple(text, plain, where);
    } else {
      complex(element, plain, path);
    }
  }

  private void simple(String text, String type, String where) {
    used.add(type);
    List<String> words = new ArrayList<>();
    OUTLINE.path("simple_types_3.2.1").path(type).forEach(word -> words.add(word.asText()));
    String pattern =
        words.size() == 1 && words.get(0).startsWith("pattern ")
            ? words.get(0).substring("pattern ".length())
            : String.join("|", words);
    matches(text, pattern, where);
  }

  private void matches(String text, String pattern, String where) {
    if (!Pattern.compile(pattern, Pattern.DOTALL).matcher(text).matches()) {
      mistakes.add(where + ": \"" + text + "\" is not " + pattern);
    }
  }

  private void real(Element real, String where) {
    List<String> names = children(real).stream().map(Element::getLocalName).toList();
    if (!names.equals(REAL) && !names.equals(REAL.subList(0, 2))) {
      mistakes.add(where + ": holds " + names);
      return;
    }
    matches(children(real).get(0).getTextContent(), "[-+]?\\d+(\\.\\d+)?", where + "/value");
    matches(
        children(real).get(1).getTextContent(),
        "(\\\\[a-z]+(\\\\tothe\\{-?\\d+})?)+",
        where + "/unit");
    if (names.equals(REAL)) {
      Element uncertainty = children(real).get(2);
      List<String> parts = children(uncertainty).stream().map(Element::getLocalName).toList();
      if (!parts.equals(UNCERTAINTY)) {
        mistakes.add(where + ": holds " + parts);
        return;
      }
      matches(children(uncertainty).get(0).getTextContent(), "\\d+(\\.\\d+)?", where + "/U");
      matches(children(uncertainty).get(1).getTextContent(), "[1-9]\\d*(\\.\\d*)?", where + "/k");
      matches(children(uncertainty).get(2).getTextContent(), "0(\\.\\d*)?|1(\\.0*)?", where + "/p");
    }
  }
}
