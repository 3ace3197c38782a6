package org.benchstroke.cli;

import org.benchstroke.bench.BenchFile;
import org.benchstroke.commission.HandBench;
import org.benchstroke.commission.HandResult;
import org.benchstroke.core.clock.BenchClock;
import org.benchstroke.io.transport.LinkOpener;
import org.benchstroke.procedure.Caution;
import org.benchstroke.run.BenchAssembly;
import org.benchstroke.run.Operator;
import org.benchstroke.run.StopSwitch;
import org.benchstroke.unit.UnitType;

/** What the commands that move a unit by hand share at the terminal. */
final class HandWork implements AutoCloseable {
  private final Shown out;
  private final StopSwitch stop;
  private final boolean asks;
  private final Tty tty;
  private final Keys keys;

  private HandWork(Shown out, StopSwitch stop, boolean asks, Tty tty, Keys keys) {
    this.out = out;
    this.stop = stop;
    this.asks = asks;
    this.tty = tty;
    this.keys = keys;
  }

  /**
   * With a person at the terminal who answers the cautions.
   *
   * @param hook gives the terminal back
   */
  static HandWork attended(Input in, Shown out, StopSwitch stop, StopHook hook) {
    Tty tty = Tty.forKeys();
    hook.lastly(tty::close);
    return new HandWork(
        out, stop, true, tty, Keys.at(tty, in, out, () -> stop.stop("the terminal is gone")));
  }

  /** Orders come from standard input, whatever it is; cautions are shown, and nobody is asked. */
  static HandWork unattended(Input in, Shown out, StopSwitch stop) {
    return new HandWork(out, stop, false, Tty.watched(), Keys.lines(in, out));
  }

  Keys keys() {
    return keys;
  }

  int columns() {
    return tty.width();
  }

  /** The bench, with the person at the terminal as its operator. */
  HandBench bench(BenchFile file, UnitType unit, LinkOpener links, BenchClock clock) {
    if (file.simulation().isPresent()) {
      out.println("SIMULATED bench " + file.name());
    }
    Operator operator =
        asks
            ? new ConsoleOperator(out, keys, tty, clock, stop)
            : new UnattendedOperator(out, tty::width);
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
    out.println(Wrapped.text("  " + line, tty.width(), 4));
    out.flush();
  }

  /** Tells how it ended and how the bench was left. */
  void tellEnd(HandResult result) {
    out.println();
    if (result.how() != HandResult.How.DONE) {
      out.println("Ended: " + result.reason());
    }
    out.println(Wrapped.text("Safe signal: " + result.safe().detail(), tty.width(), 2));
    out.println(Wrapped.text("Motor power: " + result.power(), tty.width(), 2));
    if (!result.safe().confirmed()) {
      Cautions.show(out, Caution.LINK_LOST, tty.width());
    }
    out.flush();
  }

  @Override
  public void close() {
    tty.close();
  }
}
