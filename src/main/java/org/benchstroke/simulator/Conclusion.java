package org.benchstroke.simulator;

/**
 * What a routine acceptance on a bench with every instrument must conclude of a simulated unit.
 * Texts only: what judges and what looks for causes lies above this package. Immutable.
 *
 * @param verdict the verdict's word, as reports print it
 * @param shows text that its reason, its findings or its orders must hold
 * @param cause the cause that must come first, in lower case with underscores; {@link #NO_CAUSE}
 *     where nothing must stand out
 */
public record Conclusion(String verdict, String shows, String cause) {
  /** The cause where nothing stands out. */
  public static final String NO_CAUSE = "none";

  /** Whether a cause must stand out. */
  public boolean hasCause() {
    return !cause.equals(NO_CAUSE);
  }
}
