package org.benchstroke.run;

import java.util.Map;
import java.util.Optional;
import org.benchstroke.bench.BenchFile;
import org.benchstroke.bench.InstrumentSpec;
import org.benchstroke.io.instrument.Identity;
import org.benchstroke.io.instrument.Instrument;
import org.benchstroke.record.Event;

/** Is each instrument the one that the bench file describes? The runner's thread. */
final class IdentityCheck {
  private final BenchFile bench;
  private final RunLog log;
  private final CheckList checks;

  IdentityCheck(BenchFile bench, RunLog log, CheckList checks) {
    this.bench = bench;
    this.log = log;
    this.checks = checks;
  }

  static String name(Instrument instrument) {
    return "identity of " + instrument.name();
  }

  /**
   * Compares what it says of itself with the bench file.
   *
   * @return whether it may be worked with
   */
  boolean compare(Instrument instrument, Optional<Identity> identity) {
    Identification identification = Identification.of(bench, instrument, identity);
    log.write(
        new Event.Identified(
            instrument.name(),
            identification.expected(),
            identification.found(),
            identification.same()));
    String name = name(instrument);
    switch (identification.outcome()) {
      case CANNOT_TELL -> checks.warn(name, identification.words(), Map.of());
      case ANOTHER -> checks.block(name, identification.words());
      case MATCHES -> checks.ok(name, identification.words(), Map.of());
    }
    return identification.outcome() != Identification.Outcome.ANOTHER;
  }

  /** What is read by eye can't tell who it is; its label can. */
  void byEye(InstrumentSpec spec) {
    log.write(new Event.Identified(spec.name(), spec.expected(), "", false));
    checks.warn(
        "identity of " + spec.name(),
        "it has no port: a person reads it and types the value; compare its label with "
            + spec.expected(),
        Map.of());
  }
}
