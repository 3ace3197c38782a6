package org.benchstroke.run;

import java.util.Locale;
import java.util.Optional;
import org.benchstroke.bench.BenchFile;
import org.benchstroke.bench.InstrumentSpec;
import org.benchstroke.io.instrument.Identity;
import org.benchstroke.io.instrument.Instrument;

/**
 * Whether an instrument is the one that the bench file describes. Immutable.
 *
 * @param outcome what came of the comparison
 * @param expected who it should be
 * @param found who it says it is; empty if it can't tell
 * @param same whether maker, model and serial number are those of the bench file
 * @param words the outcome for people
 */
public record Identification(
    Outcome outcome, String expected, String found, boolean same, String words) {

  /** What came of the comparison. */
  public enum Outcome {
    MATCHES,
    /** It has no way of telling. */
    CANNOT_TELL,
    /** Another instrument, or a simulated one on a bench that is not. */
    ANOTHER
  }

  /** Compares what an instrument says of itself with the bench file. */
  public static Identification of(
      BenchFile bench, Instrument instrument, Optional<Identity> identity) {
    InstrumentSpec spec =
        bench.instruments().stream()
            .filter(each -> each.name().equals(instrument.name()))
            .findFirst()
            .orElseThrow();
    String expected = spec.expected();
    String found = identity.map(Identity::raw).orElse("");
    boolean same = identity.isPresent() && matches(identity.get(), spec);
    boolean simulator = found.toLowerCase(Locale.ROOT).contains("simulated");
    if (identity.isEmpty()) {
      String words = "it can't tell; compare its label with " + expected;
      return new Identification(Outcome.CANNOT_TELL, expected, found, false, words);
    }
    if (!same) {
      String words = "found " + found + ", the bench file says " + expected + ": a different one";
      return new Identification(Outcome.ANOTHER, expected, found, false, words);
    }
    if (simulator && bench.simulation().isEmpty()) {
      String words = "it is simulated, but the bench file has no [simulation] table";
      return new Identification(Outcome.ANOTHER, expected, found, true, words);
    }
    return new Identification(Outcome.MATCHES, expected, found, true, identity.get().words());
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
}
