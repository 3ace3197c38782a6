package org.benchstroke.imported;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.SortedSet;
import org.benchstroke.core.quantity.Position;
import org.benchstroke.procedure.Procedure;
import org.benchstroke.procedure.TestSpec;

/** The kinds of test that what others recorded can show. Immutable. */
final class TestsInFile {
  private static final TraceFinder NONE =
      new TraceFinder(
          from ->
              Stretch.none("a file can't show it: it is not found in setpoint and position alone"));

  private final List<TestInFile<?>> kinds;
  private final Map<Class<?>, TestInFile<?>> byType = new HashMap<>();

  TestsInFile(List<TestInFile<?>> kinds) {
    this.kinds = List.copyOf(kinds);
    kinds.forEach(kind -> byType.put(kind.type(), kind));
  }

  private Optional<TestInFile<?>> kind(TestSpec test) {
    return Optional.ofNullable(byType.get(test.getClass()));
  }

  /** The setpoints that a procedure asks for, %. */
  List<Double> points(Optional<Procedure> procedure) {
    return procedure.map(Procedure::tests).orElse(List.of()).stream()
        .flatMap(test -> kind(test).stream().flatMap(kind -> points(kind, test).stream()))
        .map(Position::percent)
        .distinct()
        .toList();
  }

  private static <S extends TestSpec> List<Position> points(TestInFile<S> kind, TestSpec test) {
    return kind.points(kind.type().cast(test));
  }

  /** What finds each test of a procedure in a trace. */
  List<TraceFinder> finders(Procedure procedure, Plateaus file) {
    return procedure.tests().stream()
        .map(test -> kind(test).map(kind -> finder(kind, test, file)).orElse(NONE))
        .toList();
  }

  private static <S extends TestSpec> TraceFinder finder(
      TestInFile<S> kind, TestSpec test, Plateaus file) {
    return kind.finder(kind.type().cast(test), file);
  }

  /** The tests that a trace shows by itself, in the order of the kinds; empty if none. */
  List<Inferred> inferred(Plateaus file) {
    List<Inferred> found = new ArrayList<>();
    kinds.forEach(kind -> kind.inferred(file, found.isEmpty()).ifPresent(found::add));
    return found;
  }

  /** What readings that a person wrote down are, where they show a test. */
  Optional<TestInFile.Readings> readings(TestSpec test) {
    return kind(test).flatMap(TestInFile::readings);
  }

  /** The tests that such readings show by themselves. */
  List<Inferred> inferred(SortedSet<Double> points, int cycles) {
    return kinds.stream()
        .flatMap(kind -> kind.readings().stream())
        .flatMap(readings -> readings.inferred(points, cycles).stream())
        .toList();
  }
}
