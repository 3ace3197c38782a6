package org.benchstroke.core.toml;

/**
 * One mistake in a file that a person wrote.
 *
 * @param file the file as it was named
 * @param line from 1; 0 if it concerns the whole file
 * @param key the full key, "instrument[2].address"; may be empty
 * @param message what was found, what is allowed, what to do next
 */
public record Mistake(String file, int line, String key, String message) {
  /** One line: file:line: key: message. */
  public String text() {
    String place = line > 0 ? file + ":" + line : file;
    return key.isEmpty() ? place + ": " + message : place + ": " + key + ": " + message;
  }
}
