package org.benchstroke.simulator;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.List;
import java.util.function.DoubleSupplier;

/**
 * The converters of simulated instruments that get a new value in their own time, and not whenever
 * they are read. One thread at a time.
 */
final class Converters {
  /** Multiples of it fall evenly between whole numbers. */
  private static final double GOLDEN = (Math.sqrt(5.0) - 1.0) / 2.0;

  private final List<Converter> converters = new ArrayList<>();

  /** Bench time goes on. */
  interface Advance {
    void to(long nanos);
  }

  /**
   * What a channel shows.
   *
   * @param truth what there is to be measured, in the channel's unit
   */
  DoubleSupplier of(Specimen specimen, DoubleSupplier truth) {
    if (specimen.manner().conversionSeconds() == 0.0) {
      return () -> specimen.shown(truth.getAsDouble());
    }
    Converter converter = new Converter(specimen, truth);
    converters.add(converter);
    return converter;
  }

  /** Lets the bench go on to an instant, ns, and whoever is due on the way convert. */
  void advanceTo(long nanos, Advance bench) {
    Converter next = next();
    while (next != null && next.dueNanos <= nanos) {
      bench.to(next.dueNanos);
      next.convert();
      next = next();
    }
    bench.to(nanos);
  }

  private Converter next() {
    Converter first = null;
    for (Converter each : converters) {
      first = first == null || each.dueNanos < first.dueNanos ? each : first;
    }
    return first;
  }

  private static final class Converter implements DoubleSupplier {
    private final Specimen specimen;
    private final DoubleSupplier truth;
    private final long periodNanos;
    private final Deque<Double> last = new ArrayDeque<>();
    private long conversions;
    private long dueNanos;
    private double shown;

    private Converter(Specimen specimen, DoubleSupplier truth) {
      this.specimen = specimen;
      this.truth = truth;
      this.periodNanos = Math.round(specimen.manner().conversionSeconds() * 1e9);
    }

    private void convert() {
      last.addLast(truth.getAsDouble());
      if (last.size() > specimen.manner().meanOf()) {
        last.removeFirst();
      }
      double mean = last.stream().mapToDouble(Double::doubleValue).average().orElseThrow();
      shown = specimen.shown(mean);
      conversions++;
      dueNanos = conversions * periodNanos + unevenNanos();
    }

    /** Spread evenly over its bounds, and the same in each run. */
    private long unevenNanos() {
      double turn = conversions * GOLDEN % 1.0;
      return Math.round((turn - 0.5) * specimen.manner().unevenness() * periodNanos);
    }

    @Override
    public double getAsDouble() {
      return shown;
    }
  }
}
