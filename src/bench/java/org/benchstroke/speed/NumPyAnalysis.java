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
import java.util.List;
import java.util.function.IntToDoubleFunction;
import java.util.function.ToDoubleFunction;

/**
 * The script src/bench/python/analysis.py, which analyses a made-up trace when it is told to. The
 * property {@code python} names another interpreter than Debian's. One thread.
 */
final class NumPyAnalysis implements AutoCloseable {
  private final Path folder;
  private final Process process;
  private final Writer go;
  private final BufferedReader said;
  private final String versions;

  private NumPyAnalysis(Path folder, Process process) throws IOException {
    this.folder = folder;
    this.process = process;
    this.go = process.outputWriter(StandardCharsets.US_ASCII);
    this.said =
        new BufferedReader(
            new InputStreamReader(process.getInputStream(), StandardCharsets.US_ASCII));
    this.versions = line();
  }

  /** Writes the trace for it and starts it. */
  static NumPyAnalysis started(Path folder, MadeUpTrace made) throws IOException {
    write(folder, made);
    ProcessBuilder builder =
        new ProcessBuilder(
            System.getProperty("python", "/usr/bin/python3"),
            "src/bench/python/analysis.py",
            folder.toString());
    builder.environment().put("OMP_NUM_THREADS", "1");
    builder.environment().put("OPENBLAS_NUM_THREADS", "1");
    return new NumPyAnalysis(
        folder, builder.redirectError(ProcessBuilder.Redirect.INHERIT).start());
  }

  /** Of NumPy and of SciPy, in words. */
  String versions() {
    return versions;
  }

  /** Analyses once more and gives the seconds that it took, without the reading of files. */
  double seconds() throws IOException {
    go.write("go\n");
    go.flush();
    return Double.parseDouble(line());
  }

  /** What it measured last. */
  double[] measured() throws IOException {
    ByteBuffer bytes = ByteBuffer.wrap(Files.readAllBytes(folder.resolve("measured.f64")));
    double[] values = new double[bytes.remaining() / 8];
    bytes.order(ByteOrder.nativeOrder()).asDoubleBuffer().get(values);
    return values;
  }

  private String line() throws IOException {
    String line = said.readLine();
    if (line == null) {
      throw new IOException("analysis.py ended; it needs python3-numpy and python3-scipy");
    }
    return line;
  }

  private static void write(Path folder, MadeUpTrace made) throws IOException {
    write(folder.resolve("seconds.f64"), made.trace().size(), made.trace()::seconds);
    write(folder.resolve("percent.f64"), made.trace().size(), made.trace()::percent);
    Files.write(folder.resolve("saturated.u8"), new byte[made.trace().size()]);
    List<ToDoubleFunction<MadeUpTrace.Change>> columns =
        List.of(MadeUpTrace.Change::seconds, MadeUpTrace.Change::from, MadeUpTrace.Change::to);
    write(
        folder.resolve("steps.f64"),
        3 * made.steps().size(),
        i -> columns.get(i % 3).applyAsDouble(made.steps().get(i / 3)));
  }

  private static void write(Path file, int count, IntToDoubleFunction values) throws IOException {
    ByteBuffer bytes = ByteBuffer.allocate(8 * count).order(ByteOrder.nativeOrder());
    for (int i = 0; i < count; i++) {
      bytes.putDouble(values.applyAsDouble(i));
    }
    Files.write(file, bytes.array());
  }

  @Override
  public void close() throws IOException {
    go.close();
    process.onExit().join();
  }
}
