package org.benchstroke.run;

import java.util.Optional;
import org.benchstroke.bench.BenchFile;
import org.benchstroke.bench.InstrumentBounds;
import org.benchstroke.core.quantity.Current;
import org.benchstroke.io.instrument.Role;

/**
 * How far source and loop meter may differ by their data sheets: both bounds together. Stateless.
 */
final class LoopTolerance {
  private LoopTolerance() {}

  static double milliamps(BenchFile bench, Current at) {
    return halfWidth(bench, Role.SIGNAL_SOURCE, at) + halfWidth(bench, Role.LOOP_METER, at);
  }

  private static double halfWidth(BenchFile bench, Role role, Current at) {
    // On the last day of the certificate, when it may be off the most.
    InstrumentBounds bounds = InstrumentBounds.of(bench, role, Optional.empty()).orElseThrow();
    return bounds.widest(at.milliamps()) + bounds.channel().resolution();
  }
}
