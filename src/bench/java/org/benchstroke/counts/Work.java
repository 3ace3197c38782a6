package org.benchstroke.counts;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.Callable;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.concurrent.atomic.AtomicInteger;

/** Many runs on all cores, with a bar that shows how far they are. */
final class Work {
  private Work() {}

  static <T> List<T> all(String name, List<Callable<T>> runs)
      throws InterruptedException, ExecutionException {
    int cores = Runtime.getRuntime().availableProcessors();
    ExecutorService pool = Executors.newFixedThreadPool(cores);
    AtomicInteger done = new AtomicInteger();
    long begin = System.nanoTime();
    try {
      List<Future<T>> futures = new ArrayList<>();
      for (Callable<T> run : runs) {
        futures.add(
            pool.submit(
                () -> {
                  T result = run.call();
                  tell(name, done.incrementAndGet(), runs.size(), begin);
                  return result;
                }));
      }
      List<T> results = new ArrayList<>();
      for (Future<T> future : futures) {
        results.add(future.get());
      }
      return results;
    } finally {
      pool.shutdownNow();
      System.err.println();
    }
  }

  private static void tell(String name, int done, int all, long begin) {
    if (done % Math.max(1, all / 50) == 0 || done == all) {
      double seconds = (System.nanoTime() - begin) / 1e9;
      int filled = (int) (30L * done / all);
      System.err.printf(
          Locale.ROOT,
          "\r%s [%s%s] %d of %d, %.0f s, %.0f s to go ",
          name,
          "#".repeat(filled),
          ".".repeat(30 - filled),
          done,
          all,
          seconds,
          seconds / done * (all - done));
    }
  }
}
