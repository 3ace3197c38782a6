package org.benchstroke.app;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.Locale;
import java.util.Optional;

/** The JSON Schemas (2020-12) of what people write and what programs read. */
public enum SchemaFile {
  BENCH("a bench file"),
  INSTRUMENT("a file that describes an instrument"),
  UNIT_TYPE("a unit type file"),
  PROCEDURE("a procedure file"),
  SIMULATION("a simulation file"),
  SHOP("a shop file"),
  USER("a user file"),
  CONFIG("what \"config --json\" prints"),
  OPERATORS("an operators file"),
  RECORD_LINE("a line of a record"),
  JUDGEMENT("a judgement as JSON, of one record or of two, as found and as left"),
  RUN_LINE("a line that \"run --json-lines\" prints"),
  SCAN("what \"scan --json\" prints"),
  VERIFIED("what \"verify --json\" prints"),
  AMENDED("what \"amend --json\" prints"),
  KEY("what \"key --json\" prints"),
  ARCHIVE_WORK("what \"archive rebuild\", \"add\" and \"catch-up\" print with --json");

  private static final String FOLDER = "/org/benchstroke/schemas/";

  private final String what;

  SchemaFile(String what) {
    this.what = what;
  }

  /** Of what it is, in words. */
  public String what() {
    return what;
  }

  /** As it is typed: "unit-type". */
  public String key() {
    return name().toLowerCase(Locale.ROOT).replace('_', '-');
  }

  /** The name of its file. */
  public String fileName() {
    return key() + ".schema.json";
  }

  public static Optional<SchemaFile> of(String key) {
    return Arrays.stream(values()).filter(each -> each.key().equals(key)).findFirst();
  }

  /** Its text, as it travels in the program file. */
  public String text() {
    try (InputStream in = SchemaFile.class.getResourceAsStream(FOLDER + fileName())) {
      if (in == null) {
        throw new IllegalStateException(fileName() + " is not in the program file");
      }
      return new String(in.readAllBytes(), StandardCharsets.UTF_8);
    } catch (IOException e) {
      throw new UncheckedIOException("the program file is damaged", e);
    }
  }
}
