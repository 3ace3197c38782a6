package org.benchstroke.cli;

import java.io.PrintWriter;
import org.benchstroke.bench.BenchFile;
import org.benchstroke.bench.UnitType;
import org.benchstroke.clock.BenchClock;
import org.benchstroke.commission.HandBench;
import org.benchstroke.commission.HandResult;
import org.benchstroke.run.BenchAssembly;
import org.benchstroke.run.Caution;
import org.benchstroke.run.StopSwitch;
import org.benchstroke.transport.LinkOpener;

/** What the commands that move a unit by hand share at the terminal. */
final class HandWork {
  private final PrintWriter out;

  HandWork(PrintWriter out) {
    this.out = out;
  }

  /** The bench, with the person at the terminal as its operator. */
  HandBench bench(
      BenchFile file,
      UnitType unit,
      LinkOpener links,
      BenchClock clock,
      Keys keys,
      StopSwitch stop) {
    if (file.simulation().isPresent()) {
      out.println("SIMULATED bench " + file.name());
    }
    ConsoleOperator operator = new ConsoleOperator(out, keys, clock, stop);
    return new HandBench(
        file,
        unit,
        BenchAssembly.of(file, unit, links, clock, operator),
        clock,
        operator,
        stop,
        this::told);
  }

  private void told(String line) {
    out.println("  " + line);
    out.flush();
  }

  /** Tells how it ended and how the bench was left. */
  void tellEnd(HandResult result) {
    out.println();
    if (result.how() != HandResult.How.DONE) {
      out.println("Ended: " + result.reason());
    }
    out.println("Safe signal: " + result.safe().detail());
    out.println("Motor power: " + result.power());
    if (!result.safe().confirmed()) {
      out.println(Caution.LINK_LOST.text());
    }
    out.flush();
  }
}
