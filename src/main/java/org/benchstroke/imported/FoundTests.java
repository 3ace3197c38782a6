package org.benchstroke.imported;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.IntStream;

/**
 * The tests of a procedure as a trace shows them. Immutable.
 *
 * @param finders what finds each of them, in order
 * @param stretches where it was found, in the same order
 */
record FoundTests(List<TraceFinder> finders, List<Stretch> stretches) {
  static FoundTests of(List<TraceFinder> finders) {
    List<Stretch> stretches = new ArrayList<>();
    int next = 0;
    for (TraceFinder finder : finders) {
      // A test may set out from the plateau on which the one before ended.
      Stretch stretch = finder.stretch().apply(Math.max(0, next - 1));
      stretches.add(stretch);
      next = stretch.found() ? stretch.to() : next;
    }
    return new FoundTests(finders, stretches);
  }

  /**
   * Where a trace holds more of a test's kind than was asked for.
   *
   * @param more tells it
   * @param count how many plateaus there are
   */
  List<Integer> more(TraceFinder.More more, int count) {
    return IntStream.range(1, count)
        .filter(this::free)
        .filter(i -> more.where().at(i, this::free))
        .boxed()
        .toList();
  }

  private boolean free(int index) {
    return stretches.stream().noneMatch(s -> s.takes(index));
  }
}
