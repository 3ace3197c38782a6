package org.benchstroke.speed;

import java.lang.management.CompilationMXBean;
import java.lang.management.ManagementFactory;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/**
 * Polls per second of several clients, taken in turn in short rounds, so that they share what the
 * machine does, and once Java has compiled what it compiles.
 */
final class Rates {
  /** So little compiled in a round is no news any more. */
  private static final long QUIET_MILLIS = 20;

  private final double seconds;
  private final int rounds;
  private final int warmUps;

  /** Measures for about so many seconds and gives polls per second. */
  interface Measured {
    double perSecond(double seconds) throws Exception;
  }

  private final Map<String, Measured> clients = new LinkedHashMap<>();
  private final Map<String, List<Double>> seen = new LinkedHashMap<>();

  Rates(Extent extent) {
    this.seconds = extent.of(500, 50) / 1e3;
    this.rounds = extent.of(21, 1);
    this.warmUps = extent.of(40, 1);
  }

  Rates with(String name, Measured client) {
    clients.put(name, client);
    seen.put(name, new ArrayList<>());
    return this;
  }

  Rates measured() throws Exception {
    for (Measured client : clients.values()) {
      warmUp(client);
    }
    for (int round = 0; round < rounds; round++) {
      for (Map.Entry<String, Measured> client : clients.entrySet()) {
        seen.get(client.getKey()).add(client.getValue().perSecond(seconds));
      }
    }
    return this;
  }

  private void warmUp(Measured client) throws Exception {
    CompilationMXBean compiler = ManagementFactory.getCompilationMXBean();
    long before;
    int round = 0;
    do {
      before = compiler.getTotalCompilationTime();
      client.perSecond(seconds);
      round++;
    } while (round < warmUps && compiler.getTotalCompilationTime() - before > QUIET_MILLIS);
  }

  double median(String name) {
    return median(seen.get(name));
  }

  /** How many times as fast the one is as the other, in the median of the rounds. */
  double ratio(String one, String other) {
    List<Double> ratios = new ArrayList<>();
    for (int i = 0; i < rounds; i++) {
      ratios.add(seen.get(one).get(i) / seen.get(other).get(i));
    }
    return median(ratios);
  }

  private static double median(List<Double> values) {
    List<Double> sorted = values.stream().sorted().toList();
    return sorted.get(sorted.size() / 2);
  }

  Iterable<String> names() {
    return clients.keySet();
  }

  /** Polls for a time; the first poll, which opens the connection, is not measured for anybody. */
  static double of(Poller poller, double seconds) throws Exception {
    poller.poll();
    long begin = System.nanoTime();
    long end = begin + (long) (seconds * 1e9);
    long polls = 0;
    while (System.nanoTime() < end) {
      if (poller.poll() != 50.0) {
        throw new IllegalStateException("a wrong value");
      }
      polls++;
    }
    return polls * 1e9 / (System.nanoTime() - begin);
  }
}
