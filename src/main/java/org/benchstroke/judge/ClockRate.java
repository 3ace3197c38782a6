package org.benchstroke.judge;

import java.util.ArrayList;
import java.util.List;
import org.benchstroke.core.uncertainty.Budget;
import org.benchstroke.core.uncertainty.Component;

/**
 * What the rate of the clock adds to every time. A run is timed by the computer's monotonic clock,
 * which is never set while it runs and whose quartz is right within 100 ppm (common practice, no
 * source). The clock of a file is not known: a computer's that is being corrected may be wrong by
 * 500 ppm, which is the most that a usual time service slews it (from memory). U of no time is
 * found by draws. Stateless.
 */
final class ClockRate {
  private static final double OWN = 100.0e-6;
  private static final double LOGGED = 500.0e-6;

  private ClockRate() {}

  /** A time with this in its budget; anything else as it is. */
  static Measure in(Measure measure, boolean logged) {
    if (!measure.kind().unit().equals("s")
        || measure.value().isEmpty()
        || measure.budget().isEmpty()) {
      return measure;
    }
    Budget before = measure.budget().get();
    List<Component> components = new ArrayList<>(before.components());
    double half = Math.abs(measure.value().get()) * (logged ? LOGGED : OWN);
    String clock = logged ? "rate of the file's clock" : "rate of the bench's clock";
    components.add(Component.rectangular(clock, half, 1.0).in(before.unit()));
    return Measures.value(
            measure.kind(),
            measure.place(),
            measure.truth(),
            measure.value().get(),
            components,
            measure.method(),
            measure.note())
        .of(measure.scope());
  }
}
