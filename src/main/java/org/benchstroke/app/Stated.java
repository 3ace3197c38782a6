package org.benchstroke.app;

import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * What a user file or a shop file states so that nobody need type it. Files and folders are where
 * they were named from. Immutable.
 *
 * @param values by what they are; an archive's address may hold a password
 * @param folders in which short names are searched
 */
public record Stated(Map<Setting, String> values, List<Path> folders) {
  /** Nothing. */
  public static final Stated NOTHING = new Stated(Map.of(), List.of());

  public Stated {
    values = Map.copyOf(values);
    folders = List.copyOf(folders);
  }

  /** What it says of a setting, if it does. */
  public Optional<String> value(Setting setting) {
    return Optional.ofNullable(values.get(setting));
  }

  /** Without the values: an archive's address may hold a password. */
  @Override
  public String toString() {
    return values.keySet().toString();
  }
}
