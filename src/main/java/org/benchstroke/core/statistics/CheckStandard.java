package org.benchstroke.core.statistics;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.benchstroke.core.statistics.NoAnswer.Lack;

/**
 * Readings of a bench's own reference, each judged by an accepted baseline: a warning beyond 2σ, a
 * stop beyond 3σ, σ being the standard deviation of the baseline (NIST/SEMATECH e-Handbook 2.2.2,
 * statistical control of a measurement process by a check standard, clause from memory; there the
 * limits are at 2σ or 3σ by choice). A good reading after a stop does not undo the stop: whether
 * what was wrong has been found is for people to say. Immutable.
 *
 * @param centre the mean of the baseline; NaN where there is none
 * @param sigma its standard deviation; NaN where there is none
 * @param judged all readings in the order of time; empty where there is no baseline
 * @param state what the newest reading says
 */
public record CheckStandard(double centre, double sigma, List<Judged> judged, CheckState state) {
  private static final double WARN = 2.0;
  private static final double STOP = 3.0;

  /** So rare by chance, a run of equal readings is none: as rare as a point beyond 3σ. */
  private static final double CHANCE = 0.0027;

  /**
   * A reading.
   *
   * @param on its date
   * @param value in the unit of the reference
   */
  public record Reading(LocalDate on, double value) {}

  /**
   * A reading with what it says.
   *
   * @param reading the reading
   * @param baseline whether it is one of those that σ is from
   * @param state what it says
   */
  public record Judged(Reading reading, boolean baseline, CheckState state) {}

  public CheckStandard {
    judged = List.copyOf(judged);
  }

  /**
   * Judges readings.
   *
   * @param readings in the order of time
   * @throws IllegalArgumentException if a value is no number, or a date is before the one above it
   */
  public static CheckStandard of(List<Reading> readings, Baseline baseline) {
    inOrder(readings);
    double[] values = readings.stream().mapToDouble(Reading::value).toArray();
    Scale.Answer answer = Scale.byDeviation(values, baseline);
    if (answer instanceof Scale.None none) {
      NoAnswer why = none.why();
      return without(
          why.lack() == Lack.TOO_FEW
              ? new CheckState.TooFew(why.has(), why.needs())
              : new CheckState.Frozen(why.has()));
    }
    Scale scale = ((Scale.Found) answer).scale();
    boolean[] in = baseline.flags(values.length);
    int suspicious = suspicious(values, in);
    List<Judged> judged = new ArrayList<>();
    int same = 0;
    for (int i = 0; i < values.length; i++) {
      same = i > 0 && values[i] == values[i - 1] ? same + 1 : 1;
      double score = (values[i] - scale.centre()) / scale.sigma();
      CheckState state = same >= suspicious ? new CheckState.Frozen(same) : byScore(score);
      judged.add(new Judged(readings.get(i), in[i], state));
    }
    CheckState newest = judged.get(judged.size() - 1).state();
    return new CheckStandard(scale.centre(), scale.sigma(), judged, newest);
  }

  /** The readings that were no good, in the order of time: each wants an answer. */
  public List<Judged> stops() {
    return judged.stream().filter(j -> !j.state().good()).toList();
  }

  /**
   * The last good reading before one that was not: what was tested since then is in doubt. Of a
   * frozen run only the first can have been real. Empty if there was none, and so all is in doubt.
   *
   * @param index of the one that was not, in {@link #judged}
   */
  public Optional<Reading> lastGoodBefore(int index) {
    CheckState state = judged.get(index).state();
    int before = state instanceof CheckState.Frozen frozen ? index + 2 - frozen.inARow() : index;
    return judged.subList(0, before).stream()
        .filter(j -> j.state().good())
        .map(Judged::reading)
        .reduce((first, second) -> second);
  }

  private static CheckStandard without(CheckState state) {
    return new CheckStandard(Double.NaN, Double.NaN, List.of(), state);
  }

  private static CheckState byScore(double score) {
    if (Math.abs(score) > STOP) {
      return new CheckState.Stop(score);
    }
    return Math.abs(score) > WARN ? new CheckState.Warning(score) : new CheckState.InControl(score);
  }

  /**
   * How many equal readings in a row are too many. The chance that a reading equals the one before
   * it is estimated from the baseline, with one such pair more than was seen: a coarse reading
   * repeats itself often, a fine one hardly ever.
   */
  private static int suspicious(double[] values, boolean[] in) {
    int pairs = 0;
    int equal = 0;
    for (int i = 1; i < values.length; i++) {
      if (in[i] && in[i - 1]) {
        pairs++;
        equal += values[i] == values[i - 1] ? 1 : 0;
      }
    }
    double chance = (equal + 1.0) / (Math.max(pairs, Baseline.FEWEST) + 1.0);
    return chance < 1.0
        ? 1 + (int) Math.ceil(Math.log(CHANCE) / Math.log(chance))
        : Integer.MAX_VALUE;
  }

  private static void inOrder(List<Reading> readings) {
    for (int i = 1; i < readings.size(); i++) {
      if (readings.get(i).on().isBefore(readings.get(i - 1).on())) {
        throw new IllegalArgumentException(
            "readings stand in the order of time, but "
                + readings.get(i).on()
                + " comes after "
                + readings.get(i - 1).on());
      }
    }
  }
}
