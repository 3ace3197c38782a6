package org.benchstroke.run;

import java.util.Map;
import java.util.OptionalDouble;
import org.benchstroke.bench.BenchFile;
import org.benchstroke.bench.InstrumentSpec;
import org.benchstroke.core.quantity.Current;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.io.instrument.Role;
import org.benchstroke.record.CheckNames;

/** Does the loop carry what was set? If not: why, in words. The runner's thread. */
final class LoopCheck {
  private static final double NOTHING_MILLIAMPS = 0.1;

  /** A loop that is limited by its resistance carries this much in full. */
  private static final double LOW_MILLIAMPS = 10.0;

  private static final double NEARLY = 0.05;

  private final BenchFile bench;
  private final CheckList checks;

  LoopCheck(BenchFile bench, CheckList checks) {
    this.bench = bench;
    this.checks = checks;
  }

  static String name(Current wanted) {
    return "loop at " + Numbers.plain(wanted.milliamps()) + " mA";
  }

  /** Holds what the loop meter read against the setting. */
  void compare(Current wanted, Current found) {
    double allowed = LoopTolerance.milliamps(bench, wanted);
    double off = found.minus(wanted).milliamps();
    String detail =
        "the loop carries "
            + found
            + ", allowed is "
            + wanted
            + " ± "
            + Numbers.significant(allowed, 2)
            + " mA";
    Map<String, Double> values =
        Map.of(
            CheckNames.WANTED_MILLIAMPS,
            wanted.milliamps(),
            CheckNames.FOUND_MILLIAMPS,
            found.milliamps());
    if (Math.abs(off) <= allowed) {
      checks.ok(name(wanted), detail, values);
    } else {
      checks.block(name(wanted), detail + "; " + cause(found, off), values);
    }
  }

  /** Without a meter only the source's own word is there, which is no proof. */
  void unmeasured(Current wanted, Current setting) {
    checks.warn(
        name(wanted),
        bench.playing(Role.SIGNAL_SOURCE).map(InstrumentSpec::typedIn).orElse(false)
            ? "no loop meter: only a person's word for " + setting
            : "no loop meter: only the source's own setting was read, " + setting,
        Map.of("setting_milliamps", setting.milliamps()));
  }

  /** A current that is too low is what the source's voltage can drive through the loop. */
  private String cause(Current found, double off) {
    OptionalDouble volts = bench.playing(Role.SIGNAL_SOURCE).orElseThrow().complianceVolts();
    if (off > 0) {
      return "more than was set: look for a second source or an earth fault in the loop";
    }
    if (found.milliamps() < NOTHING_MILLIAMPS) {
      return "hardly any current flows: the loop is open or its polarity is wrong";
    }
    if (found.milliamps() < LOW_MILLIAMPS && -off < NEARLY * found.milliamps()) {
      return "no loop resistance explains that at so low a current: source and loop meter disagree;"
          + " put a check standard on the bench, one of the two may be out of calibration";
    }
    if (volts.isEmpty()) {
      return "the loop resistance may be too high: measure it";
    }
    return "the loop resistance is too high: with "
        + Numbers.plain(volts.getAsDouble())
        + " V that is "
        + Numbers.fixed(volts.getAsDouble() / found.amps(), 0)
        + " Ω; lower it or use a source with more voltage";
  }
}
