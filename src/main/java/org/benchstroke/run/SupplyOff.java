package org.benchstroke.run;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.apache.commons.math3.stat.StatUtils;
import org.benchstroke.core.quantity.Angle;
import org.benchstroke.core.quantity.Current;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.core.quantity.Position;
import org.benchstroke.core.quantity.Voltage;
import org.benchstroke.io.instrument.Reading;
import org.benchstroke.record.CheckNames;
import org.benchstroke.record.Event;
import org.benchstroke.unit.UnitType;

/**
 * With its motor supply off, no signal may move the unit. Watches the position, and the stem where
 * it is read, while the signal changes: what moves then is fed from elsewhere, and what is shown
 * faster than any drive can move is no position. The runner's thread only.
 */
final class SupplyOff {
  /** Less is no motion, in any noise; % of travel. Own choice. */
  private static final double LEAST_PERCENT = 1.0;

  /** So far nothing but its drive takes it to its setpoint, % of travel. Own choice. */
  private static final double FAR_PERCENT = 5.0;

  private static final double DEVIATIONS = 6.0;

  /** Readings that are compared with where it stood; their median bears one that is astray. */
  private static final int READINGS = 3;

  private final UnitType unit;
  private final RunLog log;
  private final Sampler sampler;
  private final boolean relay;
  private final RunEnded.How ends;
  private Optional<Stand> stood = Optional.empty();

  /**
   * Where it stands.
   *
   * @param position % of travel
   * @param stem % of travel; NaN where nothing reads it
   */
  private record Stand(Series position, Series stem) {}

  /**
   * Of some readings.
   *
   * @param median in the middle of them
   * @param noise standard deviation of a reading, from neighbours, so that motion is no part of it
   */
  private record Series(double median, double noise) {
    static Series of(List<Double> values) {
      double[] all = values.stream().mapToDouble(Double::doubleValue).toArray();
      double squares = 0.0;
      for (int i = 1; i < all.length; i++) {
        squares += (all[i] - all[i - 1]) * (all[i] - all[i - 1]);
      }
      double noise = all.length < 2 ? 0.0 : Math.sqrt(squares / 2.0 / (all.length - 1));
      return new Series(all.length == 0 ? Double.NaN : StatUtils.percentile(all, 50.0), noise);
    }

    /** Whether the other is elsewhere: false where either is unknown. */
    boolean left(Series other) {
      double least = Math.max(LEAST_PERCENT, DEVIATIONS * Math.max(noise, 0.0));
      return Math.abs(other.median - median) > least;
    }

    String to(Series other) {
      return "from " + Numbers.fixed(median, 1) + " to " + Numbers.fixed(other.median, 1) + " %";
    }
  }

  /**
   * Looks at nothing yet.
   *
   * @param relay whether a relay of the bench switched the supply off, and not a person
   * @param ends how a run ends whose unit moves
   */
  SupplyOff(UnitType unit, RunLog log, Sampler sampler, boolean relay, RunEnded.How ends) {
    this.unit = unit;
    this.log = log;
    this.sampler = sampler;
    this.relay = relay;
    this.ends = ends;
  }

  /**
   * Waits until it stands: a spring may drive a unit that lost its supply, and only to its end.
   *
   * @throws RunEnded if it goes on and on, or a stop was asked for
   */
  void begin() throws RunEnded {
    double patience = 2.0 * unit.travelSeconds(100.0) + unit.practice().restTimeoutSeconds();
    int half = Math.max(READINGS, unit.practice().restSamples() / 2);
    Optional<Stand> first = look(half);
    double since = seconds();
    while (first.isPresent()) {
      Optional<Stand> now = look(half);
      if (now.isEmpty() || !moved(first.get(), now.get())) {
        stood = now;
        return;
      }
      if (seconds() - since > patience) {
        String seen = first.get().position().to(now.get().position()) + ", the signal unchanged";
        throw moves(seen);
      }
      first = now;
    }
  }

  /**
   * Reads while the loop settles, so that the record has no pause in which the unit was not
   * watched.
   *
   * @param readings a sample period each
   * @throws RunEnded if a stop was asked for
   */
  void watch(int readings) throws RunEnded {
    if (stood.isPresent()) {
      look(readings);
    }
  }

  /**
   * Looks whether it moved since the signal changed; to be called while the new one is on.
   *
   * @param wanted the current that was set
   * @param setNanos when it was set
   * @throws RunEnded if it moved, or if what is shown can't be a position
   */
  void under(Current wanted, long setNanos) throws RunEnded {
    if (stood.isEmpty()) {
      return;
    }
    double enough =
        unit.offSeconds() + (LEAST_PERCENT + READINGS * LEAST_PERCENT) / unit.percentPerSecond();
    Optional<Stand> now = look(READINGS);
    while (now.isPresent() && seconds() - setNanos / 1e9 < enough) {
      now = look(READINGS);
    }
    if (now.isPresent() && moved(stood.get(), now.get())) {
      tell(stood.get(), now.get(), wanted, seconds() - setNanos / 1e9);
    }
  }

  /** Notes that it stood still. */
  void stoodStill() {
    if (stood.isPresent()) {
      String how = relay ? "switched off by the relay" : "off by hand";
      log.write(
          new Event.Checked(
              CheckNames.SUPPLY_OFF,
              "ok",
              "with its motor supply " + how + ", the unit stood still while the signal changed",
              Map.of()));
    }
  }

  /**
   * Looks whether a unit whose supply was cut under way stands at its setpoint all the same: no
   * coasting and no spring ends just there.
   *
   * @param from where it was when the supply was cut, %
   * @param to where it stands, %
   * @param setpoint where it had been sent, %
   * @throws RunEnded if so
   */
  void requireNotGoneOn(double from, double to, double setpoint) throws RunEnded {
    double near = unit.deadBandPercent() + LEAST_PERCENT;
    if (Math.abs(to - setpoint) <= near && Math.abs(to - from) > FAR_PERCENT) {
      throw moves(
          "its supply was cut at "
              + Numbers.fixed(from, 1)
              + " %, and it went on to "
              + Numbers.fixed(to, 1)
              + " %, where it had been sent");
    }
  }

  private static boolean moved(Stand before, Stand now) {
    return before.position().left(now.position()) || before.stem().left(now.stem());
  }

  private void tell(Stand before, Stand now, Current wanted, double seconds) throws RunEnded {
    double way = Math.abs(now.position().median() - before.position().median());
    double possible = unit.practice().slewFactor() * unit.percentPerSecond() * seconds;
    String at = " while the source was set to " + wanted;
    boolean stemStill =
        !Double.isNaN(now.stem().median()) && !before.stem().left(now.stem()) && way > FAR_PERCENT;
    if (way > possible + LEAST_PERCENT || stemStill) {
      String seen = "it went " + before.position().to(now.position()) + at;
      String why =
          stemStill
              ? ", and the stem stood still"
              : " within "
                  + Numbers.fixed(seconds, 1)
                  + " s, where the unit can move by no more than "
                  + Numbers.fixed(possible, 1)
                  + " %";
      throw blocked(
          CheckNames.POSITION_SHOWN,
          "what the position input shows follows the loop's current and is not the position: with"
              + " the motor supply off "
              + seen
              + why
              + "; check which terminal and which register of the bench file carry the unit's"
              + " feedback");
    }
    boolean feedback = before.position().left(now.position());
    throw moves(
        (feedback
                ? before.position().to(now.position())
                : "the stem " + before.stem().to(now.stem()) + ", though not its feedback,")
            + at);
  }

  private RunEnded moves(String seen) {
    String volts =
        sampler
            .lastSupply()
            .map(Reading::value)
            .map(Voltage::toString)
            .map(v -> "; the supply meter reads " + v)
            .orElse("");
    String why =
        relay
            ? "the unit moves although the relay says that its motor supply is off: "
            : "the unit moves although its motor supply must be off now: ";
    String what =
        relay
            ? ". Keep clear of it. Have its supply switched off and locked by hand, then look for"
                + " what feeds it: a relay contact that welded, a supply wired past the relay, or"
                + " the coil of another relay in the bench file. Do not go on before it stands"
                + " still with its supply off"
            : ". Keep clear of it. Have its motor supply switched off and locked, and begin again"
                + " once it stands still";
    return blocked(CheckNames.SUPPLY_OFF, why + seen + volts + what);
  }

  private RunEnded blocked(String check, String detail) {
    log.write(new Event.Checked(check, "blocks", detail, Map.of()));
    return new RunEnded(ends, check + ": " + detail);
  }

  /**
   * Some readings of a series of their own. None where they can't be had or believed: the check of
   * the noise, which follows, says why.
   */
  private Optional<Stand> look(int readings) throws RunEnded {
    List<Double> position = new ArrayList<>();
    List<Double> stem = new ArrayList<>();
    sampler.restart(false);
    try {
      for (int i = 0; i < readings; i++) {
        Reading<Position> reading = sampler.next();
        position.add(reading.value().percent());
        sampler
            .lastAngle()
            .map(Reading<Angle>::value)
            .ifPresent(angle -> stem.add(100.0 * angle.degrees() / unit.travelDegrees()));
      }
    } catch (TestVoid e) {
      return Optional.empty();
    } catch (RunEnded e) {
      if (e.how() == RunEnded.How.FAULT) {
        return Optional.empty();
      }
      throw e;
    }
    return Optional.of(new Stand(Series.of(position), Series.of(stem)));
  }

  private double seconds() {
    return sampler.nowNanos() / 1e9;
  }
}
