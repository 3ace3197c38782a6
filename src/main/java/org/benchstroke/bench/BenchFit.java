package org.benchstroke.bench;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.stream.Stream;
import org.benchstroke.core.quantity.Current;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.core.quantity.Position;
import org.benchstroke.core.uncertainty.Budget;
import org.benchstroke.core.uncertainty.Component;
import org.benchstroke.io.instrument.Channel;
import org.benchstroke.io.instrument.Role;
import org.benchstroke.unit.Limit;
import org.benchstroke.unit.UnitType;

/** Whether a bench's instruments are good enough for a kind of unit, by their data sheets. */
public final class BenchFit {
  /**
   * Where the instruments' uncertainty is looked at, and the loop is read back: ends and middle.
   */
  public static final List<Position> PLACES =
      List.of(Position.ofPercent(0.0), Position.ofPercent(50.0), Position.ofPercent(100.0));

  private final BenchFile bench;
  private final UnitType unit;

  public BenchFit(BenchFile bench, UnitType unit) {
    this.bench = bench;
    this.unit = unit;
  }

  /**
   * A limit over the uncertainty of the instruments.
   *
   * @param ratio accuracy ratio
   * @param uncertaintyPercent U of the instruments at the worst place, % of travel
   * @param limit the limit
   */
  public record AccuracyRatio(double ratio, double uncertaintyPercent, Limit limit) {
    /** In words, with the numbers. */
    public String text() {
      return Numbers.fixed(ratio, 1)
          + " : 1 (limit "
          + limit.text()
          + ", U of the instruments "
          + Numbers.significant(uncertaintyPercent, 2)
          + " %)";
    }
  }

  /**
   * The ratio of a limit on a position error, on the last day on which the instruments may be used.
   */
  public AccuracyRatio ratio(Limit limit) {
    InstrumentBudget instruments =
        new InstrumentBudget(bench, unit, Role.POSITION_TRANSMITTER, Optional.empty());
    double worst = 0.0;
    for (Position at : PLACES) {
      List<Component> components = new ArrayList<>(instruments.steps(at.percent()));
      components.addAll(instruments.accuracy(at.percent(), at.percent()));
      worst = Math.max(worst, new Budget("%", components).expand().half());
    }
    return new AccuracyRatio(limit.narrowestSide() / worst, worst, limit);
  }

  /** The currents that the unit needs and a source with these ends can't make. */
  public List<Current> outOfReach(Current lowest, Current highest) {
    Stream<Current> usual =
        Stream.of(unit.signal().zero(), unit.signal().full(), unit.safeSignal());
    return Stream.concat(usual, unit.signalLoss().currents())
        .distinct()
        .filter(c -> c.compareTo(lowest) < 0 || c.compareTo(highest) > 0)
        .toList();
  }

  /** Why the source's voltage can't drive the unit's loop; empty if it can or nothing is stated. */
  public List<String> tooMuchResistance() {
    OptionalDouble volts =
        bench.playing(Role.SIGNAL_SOURCE).map(InstrumentSpec::complianceVolts).orElseThrow();
    double full = Math.max(unit.signal().full().milliamps(), unit.signal().zero().milliamps());
    if (volts.isEmpty() || unit.loopOhms().isEmpty()) {
      return List.of();
    }
    double most = volts.getAsDouble() / unit.loopOhms().getAsDouble() * 1000.0;
    return most >= full
        ? List.of()
        : List.of(
            Numbers.plain(volts.getAsDouble())
                + " V drive at most "
                + Numbers.fixed(most, 2)
                + " mA through the "
                + Numbers.plain(unit.loopOhms().getAsDouble())
                + " Ω of the unit type, which needs "
                + Numbers.plain(full)
                + " mA; lower the resistance or use a source with more voltage");
  }

  /** The end of the feedback's range that the position transmitter can't read, if any. */
  public List<String> feedbackCutOff() {
    Channel channel =
        bench
            .playing(Role.POSITION_TRANSMITTER)
            .orElseThrow()
            .channels()
            .get(Role.POSITION_TRANSMITTER);
    double zero = channel.unit().equals("mA") ? unit.feedback().zero().milliamps() : 0.0;
    double full = channel.unit().equals("mA") ? unit.feedback().full().milliamps() : 100.0;
    List<String> cut = new ArrayList<>();
    for (double needed : new double[] {zero, full}) {
      boolean below = channel.low().isPresent() && needed <= channel.low().getAsDouble();
      boolean above = channel.high().isPresent() && needed >= channel.high().getAsDouble();
      if (below || above) {
        cut.add(
            "the feedback goes to "
                + Numbers.plain(needed)
                + " "
                + channel.unit()
                + ", which is at or beyond the end of the range: readings there would count as"
                + " saturated");
      }
    }
    return cut;
  }
}
