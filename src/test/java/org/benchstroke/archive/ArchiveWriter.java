package org.benchstroke.archive;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.ConcurrentLinkedQueue;
import java.util.concurrent.TimeUnit;
import java.util.stream.IntStream;

/**
 * A bench in a process of its own that adds runs, and goes on when the archive is away: what it
 * could not add it tries again, as a bench does with what its folder holds.
 */
public final class ArchiveWriter {
  private static final int MEASURES = 12;

  private ArchiveWriter() {}

  /** Adds runs from the first on; a line for each on standard output, once it is there. */
  static Process start(ArchivePlace place, int first, int count, int threads) throws IOException {
    List<String> command = new ArrayList<>();
    command.add(ProcessHandle.current().info().command().orElse("java"));
    command.addAll(List.of("-XX:+UseSerialGC", "-XX:TieredStopAtLevel=1"));
    command.addAll(List.of("-cp", System.getProperty("java.class.path")));
    command.add(ArchiveWriter.class.getName());
    command.add(place.toString());
    IntStream.of(first, count, threads).forEach(n -> command.add(String.valueOf(n)));
    ProcessBuilder program = new ProcessBuilder(command);
    program.environment().put("PGPASSWORD", Postgres.PASSWORD);
    return program.redirectError(ProcessBuilder.Redirect.INHERIT).start();
  }

  static void requireEnded(Process writer) throws IOException, InterruptedException {
    writer.getInputStream().readAllBytes();
    assertThat(writer.waitFor(60, TimeUnit.SECONDS)).isTrue();
    assertThat(writer.exitValue()).isZero();
  }

  public static void main(String[] args) throws Exception {
    ArchivePlace place = ArchivePlace.of(args[0]);
    int first = Integer.parseInt(args[1]);
    int count = Integer.parseInt(args[2]);
    int threads = Integer.parseInt(args[3]);
    List<Thread> all = new ArrayList<>();
    ConcurrentLinkedQueue<Integer> open = new ConcurrentLinkedQueue<>();
    IntStream.range(first, first + count).forEach(open::add);
    for (int i = 0; i < threads; i++) {
      all.add(new Thread(() -> work(place, open)));
    }
    all.forEach(Thread::start);
    for (Thread thread : all) {
      thread.join();
    }
    System.exit(0);
  }

  private static void work(ArchivePlace place, ConcurrentLinkedQueue<Integer> open) {
    MadeUpRuns runs = new MadeUpRuns(MEASURES);
    for (Integer number = open.poll(); number != null; number = open.poll()) {
      try (Archive archive = Archive.open(place)) {
        for (; number != null; number = open.poll()) {
          archive.add(runs.run(number));
          System.out.println(number);
        }
        return;
      } catch (ArchiveFault e) {
        open.add(number);
      }
    }
  }
}
