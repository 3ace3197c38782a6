package org.benchstroke.twin;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;
import org.benchstroke.acceptance.VirtualBench;
import org.benchstroke.practice.SettingsDraw;

/** A drawn unit, run through the dead band procedure of the demo data, and its twin. */
public record Recovery(long seed, SettingsDraw.Drawn unit, Twin twin) {
  private static final Path TYPE = Path.of("demo-data/unit-types/quarter-turn-15s.toml");
  private static final Path PROCEDURE = Path.of("demo-data/procedures/dead-band.toml");

  /** Runs it; a second or so. */
  public static Recovery of(long seed) {
    SettingsDraw.Drawn unit = SettingsDraw.unit(seed, TYPE);
    return new Recovery(
        seed,
        unit,
        Twin.of(
            VirtualBench.with(unit.simulation())
                .unitType(text -> unit.unitTypeText())
                .tests(tests(PROCEDURE))
                .judge()));
  }

  /** The tests of a procedure file. */
  static String tests(Path procedure) {
    try {
      String text = Files.readString(procedure);
      return text.substring(text.indexOf("[[test]]"));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  public Optional<Found> start() {
    return twin.found(Twin.START);
  }

  public Optional<Found> lead() {
    return twin.found(Twin.LEAD);
  }

  /** By how much h_on is off, as a share of it; infinite without a value. */
  public double startError() {
    double is = unit.startPercent();
    return start().map(f -> Math.abs(f.value() - is) / is).orElse(Double.POSITIVE_INFINITY);
  }

  /** By how much h_off − coast is off, as a share of it; infinite without a value. */
  public double leadError() {
    double is = unit.leadPercent();
    return lead()
        .map(f -> Math.abs(f.value() - is) / Math.abs(is))
        .orElse(Double.POSITIVE_INFINITY);
  }

  public boolean startCovered() {
    return start().filter(f -> Math.abs(f.value() - unit.startPercent()) <= f.half()).isPresent();
  }

  public boolean leadCovered() {
    return lead().filter(f -> Math.abs(f.value() - unit.leadPercent()) <= f.half()).isPresent();
  }

  public boolean explained() {
    return twin.misfit().map(Misfit::explained).orElse(false);
  }

  @Override
  public String toString() {
    return "unit "
        + seed
        + ": h_on "
        + unit.startPercent()
        + " found "
        + start()
        + ", h_off - coast "
        + unit.leadPercent()
        + " found "
        + lead()
        + " "
        + twin.misfit()
        + " "
        + twin.words();
  }
}
