package org.benchstroke.run;

import org.benchstroke.bench.BenchFile;
import org.benchstroke.instrument.Channel;
import org.benchstroke.instrument.Role;
import org.benchstroke.quantity.Current;

/**
 * How far source and loop meter may differ by their data sheets: both bounds together. Stateless.
 */
final class LoopTolerance {
  private LoopTolerance() {}

  static double milliamps(BenchFile bench, Current at) {
    return halfWidth(bench, Role.SIGNAL_SOURCE, at) + halfWidth(bench, Role.LOOP_METER, at);
  }

  private static double halfWidth(BenchFile bench, Role role, Current at) {
    Channel channel = bench.playing(role).orElseThrow().channels().get(role);
    return channel.accuracy().halfWidthAt(at.milliamps()) + channel.resolution();
  }
}
