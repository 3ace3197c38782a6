package org.benchstroke.papers.sheets;

import java.io.IOException;
import java.io.Reader;
import java.io.StringReader;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import org.w3c.dom.bootstrap.DOMImplementationRegistry;
import org.w3c.dom.ls.DOMImplementationLS;
import org.w3c.dom.ls.LSInput;
import org.w3c.dom.ls.LSResourceResolver;

/** Finds imported schemas by their namespace in a folder: nothing is asked of a network. */
final class LocalSchemas implements LSResourceResolver {
  /** Enough of XML signature for a document that has none; the schema only refers to it. */
  private static final String SIGNATURE =
      """
      <xs:schema xmlns:xs="http://www.w3.org/2001/XMLSchema"
          targetNamespace="http://www.w3.org/2000/09/xmldsig#">
        <xs:element name="Signature"/>
      </xs:schema>
      """;

  /** A name is a text in the schema of QUDT; nothing here has one. */
  private static final String QUDT =
      """
      <xs:schema xmlns:xs="http://www.w3.org/2001/XMLSchema"
          targetNamespace="http://qudt.org/vocab/">
        <xs:simpleType name="quantityKind"><xs:restriction base="xs:string"/></xs:simpleType>
        <xs:simpleType name="quantitykind"><xs:restriction base="xs:string"/></xs:simpleType>
      </xs:schema>
      """;

  private final Path folder;
  private final DOMImplementationLS inputs;

  LocalSchemas(Path folder) throws ReflectiveOperationException {
    this.folder = folder;
    this.inputs =
        (DOMImplementationLS) DOMImplementationRegistry.newInstance().getDOMImplementation("LS");
  }

  @Override
  public LSInput resolveResource(
      String type, String namespace, String publicId, String systemId, String base) {
    Map<String, String> texts =
        Map.of(
            "https://ptb.de/si", file("si/SI_Format.xsd"),
            "http://www.w3.org/2000/09/xmldsig#", SIGNATURE,
            "http://qudt.org/vocab/", QUDT);
    String text = texts.get(namespace);
    if (text == null) {
      throw new IllegalStateException("no schema of " + namespace);
    }
    LSInput input = inputs.createLSInput();
    Reader reader = new StringReader(text);
    input.setCharacterStream(reader);
    input.setSystemId(namespace);
    return input;
  }

  private String file(String name) {
    try {
      return Files.readString(folder.resolve(name));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
