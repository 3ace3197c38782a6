package org.benchstroke.app;

import java.util.Locale;

/** What need not be typed because it was stated before. */
public enum Setting {
  /** The bench file. */
  BENCH("bench"),
  /** The unit type file. */
  UNIT_TYPE("unit type"),
  /** The procedure file. */
  PROCEDURE("procedure"),
  /** Who runs tests. */
  OPERATOR(""),
  /** The folder for records and reports. */
  RECORDS(""),
  /** Where the archive is. */
  ARCHIVE(""),
  /** That papers are written in. */
  LANGUAGE(""),
  /** The sheet that papers are set for. */
  PAPER("");

  private static final String VARIABLES = "BENCHSTROKE_";

  private final String kind;

  Setting(String kind) {
    this.kind = kind;
  }

  /** Its key in a user file and in a shop file. */
  public String key() {
    return name().toLowerCase(Locale.ROOT);
  }

  /** The environment variable that states it. */
  public String variable() {
    return VARIABLES + name();
  }

  /** The option that comes before all that is stated. */
  public String option() {
    return this == PAPER ? "--paper-size" : "--" + key().replace('_', '-');
  }

  /** The kind of file that it names, as the file's key {@code kind} has it; empty if none. */
  String kind() {
    return kind;
  }

  /** Whether a file of a kind is named, and may be by its short name. */
  boolean namesFile() {
    return !kind.isEmpty();
  }
}
