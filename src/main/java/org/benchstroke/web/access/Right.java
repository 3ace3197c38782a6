package org.benchstroke.web.access;

import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.Locale;
import java.util.Map;
import java.util.stream.Collectors;

/** What somebody may do at the screen; each includes those before it. */
public enum Right {
  /** Sees everything; nothing moves, nothing is written. */
  READ,
  /** Runs tests: a unit may move. */
  DRIVE,
  /** Answers for papers, allows a further attempt, takes a bench over. */
  AUTHORISE;

  /** As it stands in the operators file. */
  public String key() {
    return name().toLowerCase(Locale.ROOT);
  }

  /** Whether this is enough where the other is needed. */
  public boolean covers(Right needed) {
    return compareTo(needed) >= 0;
  }

  /** All, by their keys. */
  public static Map<String, Right> byKey() {
    return Arrays.stream(values())
        .collect(Collectors.toMap(Right::key, right -> right, (a, b) -> a, LinkedHashMap::new));
  }
}
