package org.benchstroke.speed;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.io.Writer;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.function.IntToDoubleFunction;
import java.util.function.ToDoubleFunction;

/**
 * The analysis of ten million samples, beside a script for NumPy and SciPy that measures the same,
 * in turn. Both must agree on every figure.
 */
final class AnalysisSpeed {
  private static final int SAMPLES = 10_000_000;
  private static final int ROUNDS = 7;
  private static final int SHAPES = 200;

  /** Of the largest figure of its kind: what the order of additions may change, and far less. */
  private static final double AGREE = 1.0e-6;

  private final Path folder;

  AnalysisSpeed(Path folder) {
    this.folder = folder;
  }

  void run() throws Exception {
    requireSciPy();
    MadeUpTrace made = MadeUpTrace.of(SAMPLES);
    write(made);
    List<Double> own = new ArrayList<>();
    List<Double> rest = new ArrayList<>();
    List<Double> others = new ArrayList<>();
    double[] measured = {};
    Process python = script();
    try (Writer go = python.outputWriter(StandardCharsets.US_ASCII);
        BufferedReader said =
            new BufferedReader(
                new InputStreamReader(python.getInputStream(), StandardCharsets.US_ASCII))) {
      // The first round warms both up; it is told, and not counted.
      for (int round = 0; round <= ROUNDS; round++) {
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
        go.write("go\n");
        go.flush();
        String line = said.readLine();
        if (line == null) {
          throw new IllegalStateException("src/bench/python/analysis.py ended");
        }
        others.add(Double.parseDouble(line));
      }
    }
    print(made, own, rest, others);
    agree(measured, read(folder.resolve("measured.f64")));
    shapes(made);
    AnalysisMemory.run();
  }

  /** A note of the judge, and no measure: it is not in the times above. */
  private static void shapes(MadeUpTrace made) {
    WholeAnalysis.shapes(made, SHAPES);
    long begin = System.nanoTime();
    long explained = WholeAnalysis.shapes(made, SHAPES);
    double each = (System.nanoTime() - begin) / 1e6 / SHAPES;
    System.out.printf(
        Locale.ROOT,
        "| the shape of a response, %d of %d named | %.2f ms |%n",
        explained,
        SHAPES,
        each);
  }

  private static void requireSciPy() throws Exception {
    int code;
    try {
      code =
          new ProcessBuilder("python3", "-c", "import numpy, scipy.optimize")
              .redirectError(ProcessBuilder.Redirect.DISCARD)
              .start()
              .waitFor();
    } catch (IOException e) {
      throw new IllegalStateException("analysis needs python3", e);
    }
    if (code != 0) {
      throw new IllegalStateException("analysis needs python3-scipy");
    }
  }

  private Process script() throws IOException {
    ProcessBuilder builder =
        new ProcessBuilder("python3", "src/bench/python/analysis.py", folder.toString());
    builder.environment().put("OMP_NUM_THREADS", "1");
    builder.environment().put("OPENBLAS_NUM_THREADS", "1");
    return builder.redirectError(ProcessBuilder.Redirect.INHERIT).start();
  }

  private void write(MadeUpTrace made) throws IOException {
    write("seconds.f64", made.trace().size(), made.trace()::seconds);
    write("percent.f64", made.trace().size(), made.trace()::percent);
    Files.write(folder.resolve("saturated.u8"), new byte[made.trace().size()]);
    List<ToDoubleFunction<MadeUpTrace.Change>> columns =
        List.of(MadeUpTrace.Change::seconds, MadeUpTrace.Change::from, MadeUpTrace.Change::to);
    write(
        "steps.f64",
        3 * made.steps().size(),
        i -> columns.get(i % 3).applyAsDouble(made.steps().get(i / 3)));
  }

  private void write(String name, int count, IntToDoubleFunction values) throws IOException {
    ByteBuffer bytes = ByteBuffer.allocate(8 * count).order(ByteOrder.nativeOrder());
    for (int i = 0; i < count; i++) {
      bytes.putDouble(values.applyAsDouble(i));
    }
    Files.write(folder.resolve(name), bytes.array());
  }

  private static double[] read(Path file) throws IOException {
    ByteBuffer bytes = ByteBuffer.wrap(Files.readAllBytes(file)).order(ByteOrder.nativeOrder());
    double[] values = new double[bytes.remaining() / 8];
    bytes.asDoubleBuffer().get(values);
    return values;
  }

  private static double median(List<Double> rounds) {
    List<Double> sorted = rounds.stream().skip(1).sorted().toList();
    return sorted.get(sorted.size() / 2);
  }

  private static void print(
      MadeUpTrace made, List<Double> own, List<Double> whole, List<Double> others) {
    System.out.printf(
        Locale.ROOT,
        "%nAnalysis of %d samples, %d steps, one thread, median of %d rounds%n",
        made.trace().size(),
        made.steps().size(),
        ROUNDS);
    row("this product, step and static measures", own, others);
    row("this product, with motion and hunting", whole, others);
    row("NumPy and SciPy, step and static measures", others, others);
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

  /** Each figure's greatest difference, as a share of the largest figure of its kind. */
  private static void agree(double[] own, double[] other) {
    if (own.length != other.length) {
      throw new IllegalStateException(own.length + " figures against " + other.length);
    }
    int width = WholeAnalysis.STEP_MEASURES.size();
    int statics = own.length - WholeAnalysis.STATIC_MEASURES.size();
    double worst = 0.0;
    String where = "none";
    for (int kind = 0; kind < width + WholeAnalysis.STATIC_MEASURES.size(); kind++) {
      boolean step = kind < width;
      String name =
          step
              ? WholeAnalysis.STEP_MEASURES.get(kind)
              : WholeAnalysis.STATIC_MEASURES.get(kind - width);
      int from = step ? kind : statics + kind - width;
      int to = step ? statics : from + 1;
      double difference = difference(own, other, from, to, width);
      if (!(difference <= worst)) {
        worst = difference;
        where = name;
      }
    }
    System.out.printf(
        Locale.ROOT,
        "| greatest difference of %d figures | %.1e, %s |%n",
        own.length,
        worst,
        where);
    if (!(worst <= AGREE)) {
      throw new IllegalStateException("the figures do not agree: " + where);
    }
  }

  private static double difference(double[] a, double[] b, int from, int to, int stride) {
    double largest = Double.MIN_NORMAL;
    double apart = 0.0;
    for (int i = from; i < to; i += stride) {
      largest = Math.max(largest, Math.abs(a[i]));
      apart = Math.max(apart, Math.abs(a[i] - b[i]));
    }
    return apart / largest;
  }
}
