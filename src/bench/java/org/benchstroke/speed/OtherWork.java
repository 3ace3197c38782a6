package org.benchstroke.speed;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;

/** Processes that keep a core busy each, until they are closed. */
final class OtherWork implements AutoCloseable {
  private final List<Process> processes = new ArrayList<>();

  private OtherWork() {}

  static OtherWork on(int cores) throws IOException {
    OtherWork work = new OtherWork();
    for (int i = 0; i < cores; i++) {
      work.processes.add(new ProcessBuilder("sh", "-c", "while :; do :; done").start());
    }
    return work;
  }

  /** Behind the title of a table. */
  static String words(int cores) {
    return cores == 0 ? "" : ", beside a process that keeps one core busy";
  }

  @Override
  public void close() {
    for (Process process : processes) {
      process.destroyForcibly();
      process.onExit().join();
    }
  }
}
