package org.benchstroke.web.access;

import java.net.InetAddress;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.benchstroke.web.Refusal;

/** How many live pages each browser and each computer has open. Any thread. */
final class Watching {
  /** A browser has no more connections to one place than six. */
  private static final int MOST_OF_A_BROWSER = 8;

  private static final int MOST_OF_A_COMPUTER = 32;

  private final Map<String, Integer> open = new HashMap<>();

  /**
   * Begins one more.
   *
   * @return what ends it
   * @throws Refusal if there are too many
   */
  synchronized Runnable begin(String browser, InetAddress computer) throws Refusal {
    String from = "from " + computer.getHostAddress();
    String of = "of " + browser;
    if (open.getOrDefault(of, 0) >= MOST_OF_A_BROWSER
        || open.getOrDefault(from, 0) >= MOST_OF_A_COMPUTER) {
      throw Refusal.full("Too many pages watch the bench from here. Close some of them.");
    }
    open.merge(of, 1, Integer::sum);
    open.merge(from, 1, Integer::sum);
    return () -> end(List.of(of, from));
  }

  /** Whether a browser has one open. */
  synchronized boolean has(String browser) {
    return open.containsKey("of " + browser);
  }

  private synchronized void end(List<String> keys) {
    keys.forEach(key -> open.computeIfPresent(key, (k, n) -> n == 1 ? null : n - 1));
  }
}
