package org.benchstroke.tests.holds;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import org.benchstroke.judge.AsOrdered;
import org.benchstroke.judge.Finding;

/**
 * What a unit that doesn't stay where it is held means, one sentence for all of its setpoints. Hum
 * that its controller samples nearly in step is a slow, steady wave to it: by the trace alone that
 * is no other than a limit cycle of its own. One thread.
 */
final class HuntingFindings {
  private static final String CYCLE =
      "Either the dead band is too small for how far the unit coasts, or hum from the wiring is in"
          + " step with its controller: a battery source on the input tells them apart";
  private static final String NO_CYCLE =
      "Without a steady period it is not a limit cycle: look for noise on the signal or the sensor";

  private final Map<Finding.Kind, List<AsOrdered>> failed = new EnumMap<>(Finding.Kind.class);

  /** Adds a hold that failed by this. */
  void add(Finding.Kind kind, AsOrdered order) {
    failed.computeIfAbsent(kind, k -> new ArrayList<>()).add(order);
  }

  List<Finding> all() {
    List<Finding> findings = new ArrayList<>();
    failed.forEach((kind, orders) -> findings.add(new Finding(kind, sentence(kind, orders))));
    return findings;
  }

  private static String sentence(Finding.Kind kind, List<AsOrdered> orders) {
    boolean cycle = kind == Finding.Kind.HUNTING;
    List<String> places = orders.stream().map(AsOrdered::which).toList();
    return (cycle ? "Hunting at " : "Restless at ")
        + String.join(", ", places)
        + ": "
        + (places.size() > 1 ? "at the first, " : "")
        + orders.get(0).found()
        + ". "
        + (cycle ? CYCLE : NO_CYCLE)
        + ".";
  }
}
