package org.benchstroke.speed;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

/**
 * The analysis of ten million samples, beside a script for NumPy and SciPy that measures the same,
 * in turn. Both must agree on every figure, and see the overshoot that was built in.
 */
final class AnalysisSpeed {
  private static final int SAMPLES = 10_000_000;
  private static final int ROUNDS = 7;
  private static final int SHAPES = 200;

  /** By so much a figure of an overshoot may be off, in deviations of the noise. */
  private static final double DEVIATIONS = 8.0;

  private final Path folder;

  AnalysisSpeed(Path folder) {
    this.folder = folder;
  }

  void run(Extent extent) throws Exception {
    MadeUpTrace made = MadeUpTrace.of(extent.of(SAMPLES, 60_000));
    int rounds = extent.of(ROUNDS, 1);
    List<Double> own = new ArrayList<>();
    List<Double> rest = new ArrayList<>();
    List<Double> others = new ArrayList<>();
    double[] measured = {};
    try (NumPyAnalysis numPy = NumPyAnalysis.started(folder, made)) {
      // The first round warms both up; it is told, and not counted.
      for (int round = 0; round <= rounds; round++) {
        long begin = System.nanoTime();
        measured = WholeAnalysis.stepAndStatic(made);
        long middle = System.nanoTime();
        int motions = WholeAnalysis.motionAndHunting(made);
        long end = System.nanoTime();
        if (motions < made.steps().size()) {
          throw new IllegalStateException("only " + motions + " motions were seen");
        }
        own.add((middle - begin) / 1e9);
        rest.add((end - begin) / 1e9);
        others.add(numPy.seconds());
      }
      System.out.printf(
          Locale.ROOT,
          "%nAnalysis of %d samples, %d steps, one thread, median of %d rounds%n",
          made.trace().size(),
          made.steps().size(),
          rounds);
      row("this product, step and static measures", own, others);
      row("this product, with motion and hunting", rest, others);
      row(numPy.versions() + ", step and static measures", others, others);
      Agreement agreement = Agreement.of(measured, numPy.measured());
      System.out.printf(
          Locale.ROOT,
          "| greatest difference of %d figures | %.1e, %s |%n",
          measured.length,
          agreement.worst(),
          agreement.where());
    }
    overshoots(made, measured);
    shapes(made, extent.of(SHAPES, 2));
    AnalysisMemory.run(extent);
  }

  /** The trace goes beyond its end by a distance that is known, and stays there for a second. */
  private static void overshoots(MadeUpTrace made, double[] measured) {
    int width = WholeAnalysis.STEP_MEASURES.size();
    int at = WholeAnalysis.STEP_MEASURES.indexOf("overshoot of travel");
    double worst = 0.0;
    for (int i = 0; i < made.steps().size(); i++) {
      double is = made.steps().get(i).beyond();
      worst = Math.max(worst, Math.abs(measured[i * width + at] - is));
    }
    System.out.printf(Locale.ROOT, "| overshoots are off by | %.3f %% at most |%n", worst);
    if (!(worst <= DEVIATIONS * MadeUpTrace.NOISE)) {
      throw new IllegalStateException("an overshoot is off by " + worst + " %");
    }
  }

  /** A note of the judge, and no measure: it is not in the times above. */
  private static void shapes(MadeUpTrace made, int count) {
    WholeAnalysis.shapes(made, count);
    long begin = System.nanoTime();
    long explained = WholeAnalysis.shapes(made, count);
    double each = (System.nanoTime() - begin) / 1e6 / count;
    System.out.printf(
        Locale.ROOT,
        "| the shape of a response, %d of %d named | %.2f ms |%n",
        explained,
        count,
        each);
  }

  private static void row(String name, List<Double> rounds, List<Double> others) {
    System.out.printf(
        Locale.ROOT,
        "| %s | %.3f s (first round %.3f s) | %.2f x |%n",
        name,
        median(rounds),
        rounds.get(0),
        median(others) / median(rounds));
  }

  private static double median(List<Double> rounds) {
    List<Double> sorted = rounds.stream().skip(1).sorted().toList();
    return sorted.get(sorted.size() / 2);
  }
}
