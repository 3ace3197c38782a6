package org.benchstroke.speed;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/** Polls per second of several clients, taken in turn, so that they share what the machine does. */
final class Rates {
  private final double seconds;
  private final int rounds;

  /** Measures for about so many seconds and gives polls per second. */
  interface Measured {
    double perSecond(double seconds) throws Exception;
  }

  private final Map<String, Measured> clients = new LinkedHashMap<>();
  private final Map<String, List<Double>> seen = new LinkedHashMap<>();

  Rates(Extent extent) {
    this.seconds = extent.of(1500, 50) / 1e3;
    this.rounds = extent.of(7, 1);
  }

  Rates with(String name, Measured client) {
    clients.put(name, client);
    seen.put(name, new ArrayList<>());
    return this;
  }

  Rates measured() throws Exception {
    for (Measured client : clients.values()) {
      client.perSecond(seconds);
    }
    for (int round = 0; round < rounds; round++) {
      for (Map.Entry<String, Measured> client : clients.entrySet()) {
        seen.get(client.getKey()).add(client.getValue().perSecond(seconds));
      }
    }
    return this;
  }

  double median(String name) {
    List<Double> sorted = seen.get(name).stream().sorted().toList();
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
