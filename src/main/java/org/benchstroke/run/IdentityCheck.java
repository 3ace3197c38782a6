package org.benchstroke.run;

import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import org.benchstroke.bench.BenchFile;
import org.benchstroke.bench.InstrumentSpec;
import org.benchstroke.instrument.Identity;
import org.benchstroke.instrument.Instrument;
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

  /** Compares what it says of itself with the bench file. */
  void compare(Instrument instrument, Optional<Identity> identity) {
    InstrumentSpec spec = spec(instrument);
    String found = identity.map(Identity::raw).orElse("");
    boolean matches = identity.isPresent() && matches(identity.get(), spec);
    log.write(new Event.Identified(spec.name(), spec.expected(), found, matches));
    String name = name(instrument);
    boolean simulator = found.toLowerCase(Locale.ROOT).contains("simulated");
    if (identity.isEmpty()) {
      checks.warn(name, "it can't tell; compare its label with " + spec.expected(), Map.of());
    } else if (!matches) {
      checks.block(
          name, "found " + found + ", the bench file says " + spec.expected() + ": another one");
    } else if (simulator && bench.simulation().isEmpty()) {
      checks.block(name, "it is simulated, but the bench file has no [simulation] table");
    } else {
      checks.ok(name, found, Map.of());
    }
  }

  /** Fields that either side leaves out are not compared; the serial number always is. */
  private static boolean matches(Identity found, InstrumentSpec spec) {
    return found.serial().equals(spec.serial())
        && agree(found.maker(), spec.maker())
        && agree(found.model(), spec.model());
  }

  private static boolean agree(String found, String expected) {
    return found.isEmpty() || expected.isEmpty() || found.equals(expected);
  }

  private InstrumentSpec spec(Instrument instrument) {
    return bench.instruments().stream()
        .filter(spec -> spec.name().equals(instrument.name()))
        .findFirst()
        .orElseThrow();
  }
}
