package org.benchstroke.bench;

import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.Map;
import org.benchstroke.core.toml.TomlSection;
import org.benchstroke.io.instrument.Language;
import org.benchstroke.io.transport.AddressReader;
import org.benchstroke.io.transport.Endpoint;
import org.benchstroke.io.transport.PortName;

/**
 * The lines of a bench file while its instruments are read: each is an endpoint that several
 * instruments may share. One thread.
 */
final class BenchLines {
  /** One {@code [[line]]}, and who has used it so far. */
  private static final class Line {
    final TomlSection section;
    final Endpoint endpoint;
    boolean used;

    Line(TomlSection section, Endpoint endpoint) {
      this.section = section;
      this.endpoint = endpoint;
    }
  }

  private final Map<String, Line> lines = new LinkedHashMap<>();

  /** What is spoken at each endpoint, and by which instrument first. */
  private final Map<Endpoint, Language> spoken = new HashMap<>();

  private BenchLines() {}

  static BenchLines read(TomlSection root) {
    BenchLines read = new BenchLines();
    if (root.has("line")) {
      for (TomlSection section : root.sections("line")) {
        read.add(section);
      }
    }
    return read;
  }

  private void add(TomlSection section) {
    String name = section.text("name");
    Endpoint endpoint = AddressReader.ofLine(section);
    section.noOtherKeys();
    for (Map.Entry<String, Line> other : lines.entrySet()) {
      if (samePort(endpoint, other.getValue().endpoint)) {
        section.mistake(
            "address",
            "is the port of the line \""
                + other.getKey()
                + "\" too; give all its instruments that one line");
      }
    }
    if (lines.containsKey(name)) {
      section.mistake("name", "\"" + name + "\" is taken; give each line its own name");
    } else {
      lines.put(name, new Line(section, endpoint));
    }
  }

  private static boolean samePort(Endpoint a, Endpoint b) {
    if (a.equals(AddressReader.NOWHERE)) {
      return false;
    }
    if (a instanceof Endpoint.Serial one && b instanceof Endpoint.Serial other) {
      return PortName.same(one.port(), other.port());
    }
    return a.equals(b);
  }

  /** Where an instrument is reached: by its line, or by an address of its own. */
  Endpoint endpointOf(TomlSection instrument, Language speaks) {
    if (!instrument.has("line")) {
      if (!instrument.has("address")) {
        instrument.mistake(
            "address",
            "is missing; write address = \"tcp://host:port\", or line = \"name of a [[line]]\"");
        return AddressReader.NOWHERE;
      }
      return AddressReader.own(instrument);
    }
    if (instrument.has("address")) {
      instrument.mistake("line", "is given as well as an address; leave one of them out");
    }
    String name = instrument.optionalText("line").orElse("");
    Line line = lines.get(name);
    if (line == null) {
      if (!name.isEmpty()) {
        instrument.mistake("line", "there is no line \"" + name + "\"; " + known());
      }
      return AddressReader.NOWHERE;
    }
    line.used = true;
    noteLanguage(instrument, name, line.endpoint, speaks);
    return line.endpoint;
  }

  private String known() {
    return lines.isEmpty()
        ? "add a [[line]] with that name"
        : "known: \"" + String.join("\", \"", lines.keySet()) + "\"";
  }

  private void noteLanguage(
      TomlSection instrument, String name, Endpoint endpoint, Language speaks) {
    if (!speaks.serial() && endpoint instanceof Endpoint.Serial) {
      instrument.mistake("speaks", "\"" + speaks.key() + "\" needs a line with an address tcp://");
    }
    Language other = spoken.putIfAbsent(endpoint, speaks);
    if (other != null && !other.equals(speaks)) {
      instrument.mistake(
          "speaks",
          "is \""
              + speaks.key()
              + "\", but \""
              + other.key()
              + "\" is spoken on the line \""
              + name
              + "\" already; a line carries one language");
    }
  }

  /** Where each line is, by its name. */
  Map<String, Endpoint> endpoints() {
    Map<String, Endpoint> endpoints = new LinkedHashMap<>();
    lines.forEach((name, line) -> endpoints.put(name, line.endpoint));
    return endpoints;
  }

  /** To be called when all instruments have been read. */
  void noteUnused() {
    lines.forEach(
        (name, line) -> {
          if (!line.used) {
            line.section.mistake(
                "name",
                "no instrument is on the line \""
                    + name
                    + "\"; write line = \""
                    + name
                    + "\" where one is, or leave this [[line]] out");
          }
        });
  }
}
