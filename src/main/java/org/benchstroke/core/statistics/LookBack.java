package org.benchstroke.core.statistics;

import java.util.List;
import java.util.function.DoubleFunction;

/**
 * What was judged since the last good check, judged again with the error that was found. Nobody
 * knows when the error began, nor whether it was the same all the time: each value is judged with
 * the whole of it in both directions, and with the part of it that suits best. The rule of the
 * verdict is the caller's own, so that there is no second one. Immutable.
 *
 * @param <V> a verdict; two are the same if they are equal
 * @param found the measures, in the order given
 */
public record LookBack<V>(List<Found<V>> found) {
  /**
   * A measure of the past.
   *
   * @param id which one
   * @param knownBy by what its value is known: an id of the instrument or of the truth
   * @param value as it was judged
   * @param best the value that its rule likes best: the middle of the limits, or an infinity where
   *     there is one limit only. Away from it no verdict gets better
   * @param rule the verdict of any value with this measure's U and limit
   */
  public record Measured<V>(
      String id, String knownBy, double value, double best, DoubleFunction<V> rule) {}

  /**
   * The error that was found.
   *
   * @param of what it is of, an id as in {@link Measured#knownBy}
   * @param size in the unit of the measures, its sign without meaning
   */
  public record FoundError(String of, double size) {
    public FoundError {
      if (!Double.isFinite(size)) {
        throw new IllegalArgumentException("an error that was found is a number, not " + size);
      }
    }
  }

  /** What becomes of a verdict. */
  public enum Fate {
    /** It is known by something else. */
    NOT_TOUCHED,
    /** The same with any part of the error in either direction. */
    KEPT,
    /** Another one with the whole error in either direction. */
    CHANGED,
    /** The same with some of it and another with some other of it: test again to know. */
    UNDECIDED
  }

  /**
   * A measure with what becomes of it.
   *
   * @param measured the measure
   * @param before its verdict as it was
   * @param lower with the error taken off
   * @param higher with the error put on
   * @param kindest the best that any part of the error leaves possible
   * @param fate what becomes of the verdict
   */
  public record Found<V>(Measured<V> measured, V before, V lower, V higher, V kindest, Fate fate) {}

  public LookBack {
    found = List.copyOf(found);
  }

  /** Judges measures again. */
  public static <V> LookBack<V> of(List<Measured<V>> measures, FoundError error) {
    return new LookBack<>(measures.stream().map(m -> again(m, error)).toList());
  }

  private static <V> Found<V> again(Measured<V> m, FoundError error) {
    V before = m.rule().apply(m.value());
    if (!m.knownBy().equals(error.of())) {
      return new Found<>(m, before, before, before, before, Fate.NOT_TOUCHED);
    }
    double size = Math.abs(error.size());
    V lower = m.rule().apply(m.value() - size);
    V higher = m.rule().apply(m.value() + size);
    // with both ends beyond opposite limits there is a better verdict between them
    double kind = Math.max(m.value() - size, Math.min(m.value() + size, m.best()));
    V kindest = m.rule().apply(kind);
    boolean below = before.equals(lower);
    boolean above = before.equals(higher);
    Fate fate = below || above ? Fate.UNDECIDED : Fate.CHANGED;
    if (below && above && before.equals(kindest)) {
      fate = Fate.KEPT;
    }
    return new Found<>(m, before, lower, higher, kindest, fate);
  }

  /** Those of one fate. */
  public List<Found<V>> of(Fate fate) {
    return found.stream().filter(f -> f.fate() == fate).toList();
  }
}
