package org.benchstroke.web.access;

import java.util.Locale;
import org.benchstroke.web.Right;

/**
 * Somebody who may sign in. Immutable.
 *
 * @param name as it stands in records
 * @param right the most that they may do
 * @param secret their PIN or password, hashed: see {@link Secrets}
 */
public record NamedOperator(String name, Right right, String secret) {
  /** Whether this is their name: capitals and blanks at its ends don't matter. */
  public boolean isCalled(String other) {
    return key(name).equals(key(other));
  }

  /** What names are compared by. */
  static String key(String name) {
    return name.strip().toLowerCase(Locale.ROOT);
  }

  /** Without the secret: it is in no message and in no log. */
  @Override
  public String toString() {
    return name + " (" + right.key() + ")";
  }
}
