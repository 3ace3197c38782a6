package org.benchstroke.imported;

import java.util.List;
import java.util.Optional;
import java.util.SortedSet;
import java.util.function.BiFunction;
import org.benchstroke.core.analysis.Direction;
import org.benchstroke.core.quantity.Position;
import org.benchstroke.procedure.Aim;
import org.benchstroke.procedure.TestSpec;

/** How a kind of test is told in what others recorded. Immutable, safe for any thread. */
public interface TestInFile<S extends TestSpec> {
  /** The class of its specification. */
  Class<S> type();

  /** What finds a test in a trace. */
  TraceFinder finder(S test, Plateaus file);

  /** The setpoints that a test asks for: one in a file that is as good as one of them is that. */
  default List<Position> points(S test) {
    return List.of();
  }

  /**
   * The test that a trace shows, where no procedure was given; empty if it shows none by itself.
   *
   * @param file the trace
   * @param alone whether it shows no test of the kinds before
   */
  default Optional<Inferred> inferred(Plateaus file, boolean alone) {
    return Optional.empty();
  }

  /** How it names readings that a person wrote down; empty if such readings don't show it. */
  default Optional<Readings> readings() {
    return Optional.empty();
  }

  /** What readings are, of a test that is shown by those that a person wrote down. */
  interface Readings {
    /**
     * What one is of.
     *
     * @param percent the setpoint, % of travel
     * @param from the side from which it was approached
     * @param cycle from 1
     */
    Aim aim(double percent, Direction from, int cycle);

    /**
     * The test that they show, where no procedure was given; empty if they show none.
     *
     * @param points all setpoints, % of travel
     * @param cycles the highest cycle
     */
    Optional<Inferred> inferred(SortedSet<Double> points, int cycles);
  }

  /** One that is found where a procedure asks for it, and by no other sign. */
  static <S extends TestSpec> TestInFile<S> of(
      Class<S> type, BiFunction<S, Plateaus, TraceFinder> finder) {
    return new TestInFile<>() {
      @Override
      public Class<S> type() {
        return type;
      }

      @Override
      public TraceFinder finder(S test, Plateaus file) {
        return finder.apply(test, file);
      }
    };
  }
}
