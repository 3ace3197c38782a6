package org.benchstroke.tests.holds;

import java.util.ArrayList;
import java.util.List;
import java.util.function.Predicate;
import org.benchstroke.judge.AsOrdered;
import org.benchstroke.judge.Finding;
import org.benchstroke.judge.Word;

/**
 * What a unit that doesn't stay where it is held means, one sentence for all of its setpoints. Hum
 * that its controller samples nearly in step is a slow, steady wave to it: by the trace alone that
 * is no other than a limit cycle of its own.
 */
final class HuntingFindings {
  private final List<AsOrdered> failed;

  HuntingFindings(List<AsOrdered> orders) {
    this.failed = orders.stream().filter(o -> o.word() == Word.FAIL).toList();
  }

  List<Finding> all() {
    List<Finding> findings = new ArrayList<>();
    Predicate<AsOrdered> regular = o -> o.found().contains(HuntingMeasures.CYCLE);
    Predicate<AsOrdered> irregular = o -> o.found().contains(HuntingMeasures.IRREGULAR);
    say(
        findings,
        regular,
        Finding.Kind.HUNTING,
        "Hunting at",
        "Either the dead band is too small for how far the unit coasts, or hum of the wiring is in"
            + " step with its controller: a battery source on the input tells them apart");
    say(
        findings,
        irregular,
        Finding.Kind.RESTLESS,
        "Restless at",
        "Without a steady period that is no limit cycle: look for noise on the signal or the"
            + " sensor");
    return findings;
  }

  private void say(
      List<Finding> to,
      Predicate<AsOrdered> which,
      Finding.Kind kind,
      String word,
      String meaning) {
    List<AsOrdered> these = failed.stream().filter(which).toList();
    if (!these.isEmpty()) {
      List<String> places = these.stream().map(AsOrdered::which).toList();
      String first = places.size() > 1 ? "at the first, " : "";
      to.add(
          new Finding(
              kind,
              word
                  + " "
                  + String.join(", ", places)
                  + ": "
                  + first
                  + these.get(0).found()
                  + ". "
                  + meaning
                  + "."));
    }
  }
}
