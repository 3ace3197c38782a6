package org.benchstroke.tests.stroke;

import java.util.Optional;
import java.util.stream.IntStream;
import org.benchstroke.imported.FullStrokes;
import org.benchstroke.imported.Inferred;
import org.benchstroke.imported.Plateaus;
import org.benchstroke.imported.TestInFile;
import org.benchstroke.imported.TraceFinder;

/** Finds the strokes of a stroke time test in files of others. Immutable. */
final class StrokesInFile implements TestInFile<StrokeTime> {
  private static final int MOST = 100;

  @Override
  public Class<StrokeTime> type() {
    return StrokeTime.class;
  }

  @Override
  public TraceFinder finder(StrokeTime test, Plateaus file) {
    FullStrokes strokes = new FullStrokes(file);
    return new TraceFinder(
        from -> strokes.find("stroke", test.repeats(), false, from),
        strokes.more("raise its repeats"));
  }

  /** As many as follow each other where the first stands. */
  @Override
  public Optional<Inferred> inferred(Plateaus file, boolean alone) {
    FullStrokes strokes = new FullStrokes(file);
    return IntStream.range(0, file.count())
        .map(strokes::inARow)
        .filter(count -> count > 0)
        .map(count -> Math.min(MOST, count))
        .mapToObj(
            count ->
                new Inferred(
                    new StrokeTime(count),
                    "repeats = " + count + "\n",
                    "stroke time, " + count + " each way"))
        .findFirst();
  }
}
