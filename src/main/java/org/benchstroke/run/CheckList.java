package org.benchstroke.run;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.benchstroke.record.Event;

/** Notes the checks of the preflight and whether any of them blocks motion. The runner's thread. */
final class CheckList {
  private final RunLog log;
  private final List<String> blocks = new ArrayList<>();

  CheckList(RunLog log) {
    this.log = log;
  }

  void ok(String name, String detail, Map<String, Double> values) {
    log.write(new Event.Checked(name, "ok", detail, values));
  }

  void warn(String name, String detail, Map<String, Double> values) {
    log.write(new Event.Checked(name, "warning", detail, values));
  }

  void block(String name, String detail, Map<String, Double> values) {
    log.write(new Event.Checked(name, "blocks", detail, values));
    blocks.add(name + ": " + detail);
  }

  void block(String name, String detail) {
    block(name, detail, Map.of());
  }

  /** Ends the run if anything blocks; every check so far has been made and noted. */
  void endIfBlocked() throws RunEnded {
    if (!blocks.isEmpty()) {
      int others = blocks.size() - 1;
      String more =
          others == 0 ? "" : "; and " + others + " more " + (others == 1 ? "check" : "checks");
      throw new RunEnded(RunEnded.How.PREFLIGHT_FAILED, blocks.get(0) + more);
    }
  }
}
