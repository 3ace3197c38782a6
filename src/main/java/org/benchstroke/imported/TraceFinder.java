package org.benchstroke.imported;

import java.util.Optional;
import java.util.function.IntFunction;
import java.util.function.IntPredicate;

/**
 * Finds one test of a procedure in a trace.
 *
 * @param stretch the plateaus that show it, at or after the given one
 * @param more what else in the trace is of its kind; empty where nothing would be told by that
 */
public record TraceFinder(IntFunction<Stretch> stretch, Optional<More> more) {
  /** One that looks for no more than the test. */
  public TraceFinder(IntFunction<Stretch> stretch) {
    this(stretch, Optional.empty());
  }

  /** One that looks for more of its kind, too. */
  public TraceFinder(IntFunction<Stretch> stretch, More more) {
    this(stretch, Optional.of(more));
  }

  /**
   * Plateaus to which the unit was moved as the test moves it, and which no test took. What a file
   * holds is evidence, whoever asked for it.
   *
   * @param where tells them
   * @param one what one is called
   * @param many what several are called
   * @param remedy how a procedure asks for more of the test
   */
  public record More(Where where, String one, String many, String remedy) {
    /** Of a test that has no key for it. */
    public More(Where where, String one, String many) {
      this(where, one, many, "repeat the test in the procedure");
    }
  }

  /** Tells whether one more of a test's kind begins with the move to a plateau. */
  @FunctionalInterface
  public interface Where {
    /**
     * Whether it does.
     *
     * @param index of the plateau, which is free and has one before it
     * @param free whether no test took a plateau
     */
    boolean at(int index, IntPredicate free);
  }
}
