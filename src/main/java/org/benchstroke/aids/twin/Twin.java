package org.benchstroke.aids.twin;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.benchstroke.judge.JudgedRun;

/**
 * The twin of a unit: a {@code model} with settings fitted to a run. An aid and no part of the
 * verdict; the unit's own manual comes first. The same run gives the same twin. Immutable.
 *
 * @param parameters what was fitted; empty if the run can't be fitted at all
 * @param margin h_on + h_off − coast, the dead band of one way: at 0 it hunts, % of travel
 * @param leastStartPercent the start threshold to set at least, %: 20 % beyond the onset of hunting
 *     (common practice, no source); empty without a recommendation, and where it is set wider
 * @param misfit how well it repeats the run; empty if it could not be fitted
 * @param curves moves for a picture
 * @param words what it recommends, or why nothing, in sentences
 */
public record Twin(
    List<Parameter> parameters,
    Optional<FittedValue> margin,
    OptionalDouble leastStartPercent,
    Optional<Misfit> misfit,
    List<Curve> curves,
    List<String> words) {
  public static final String START = "h_on";
  public static final String LEAD = "h_off_less_coast";

  public Twin {
    parameters = List.copyOf(parameters);
    curves = List.copyOf(curves);
    words = List.copyOf(words);
  }

  /** Fits it; takes a fraction of a second of computing. */
  public static Twin of(JudgedRun run) {
    return new TwinFit(run).twin();
  }

  static Twin none(String why) {
    return new Twin(
        List.of(),
        Optional.empty(),
        OptionalDouble.empty(),
        Optional.empty(),
        List.of(),
        List.of("No twin: " + why + "."));
  }

  public boolean fitted() {
    return !parameters.isEmpty();
  }

  /** A parameter's value, if the run tells it. */
  public Optional<FittedValue> found(String key) {
    return parameters.stream()
        .filter(p -> p.key().equals(key))
        .findFirst()
        .flatMap(Parameter::found);
  }
}
