package org.benchstroke.judge;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import org.benchstroke.bench.InstrumentBounds;
import org.benchstroke.core.analysis.RestNoise;
import org.benchstroke.core.analysis.Spread;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.core.uncertainty.Component;
import org.benchstroke.io.instrument.Channel;
import org.benchstroke.io.instrument.Role;
import org.benchstroke.procedure.Aim;
import org.benchstroke.record.Event;
import org.benchstroke.unit.MeasureKind;

/**
 * The supply's voltage at the unit's terminals in a test: at rest, and in what follows, while the
 * motor starts and runs.
 */
public final class SupplyReadings {
  private static final String METHOD = "supply/2";
  private static final int LEAST_SAMPLES = 10;

  private final JudgedBench judged;
  private final Optional<Chapter> attempt;
  private final Aim atRest;
  private final Location place;

  /**
   * Of a test.
   *
   * @param attempt the attempt that counts; empty if none was completed
   * @param atRest what was watched while nothing moved, before anything did
   * @param place where its measures are of
   */
  public SupplyReadings(JudgedBench judged, Optional<Chapter> attempt, Aim atRest, Location place) {
    this.judged = judged;
    this.attempt = attempt;
    this.atRest = atRest;
    this.place = place;
  }

  /** At rest, lowest in motion, and sag. */
  public List<Measure> all() {
    Optional<InstrumentBounds> meter = judged.bounds(Role.SUPPLY_METER);
    Optional<Event.Watched> rest =
        attempt.flatMap(a -> a.watched(atRest::equals).stream().reduce((first, last) -> last));
    if (attempt.isEmpty() || meter.isEmpty() || rest.isEmpty()) {
      return none(
          attempt.isPresent()
              ? "the record holds no supply voltage"
              : "the test was not completed");
    }
    List<Event.Sampled> samples =
        attempt.get().lines().readings("supply").stream()
            .filter(s -> s.askedNanos() >= rest.get().fromNanos())
            .toList();
    List<Event.Sampled> still =
        samples.stream().filter(s -> s.answeredNanos() <= rest.get().toNanos()).toList();
    List<Event.Sampled> moving =
        samples.stream().filter(s -> s.askedNanos() > rest.get().toNanos()).toList();
    if (still.size() < LEAST_SAMPLES || moving.size() < LEAST_SAMPLES) {
      return none("only " + still.size() + " readings at rest, " + moving.size() + " in motion");
    }
    Optional<Event.Sampled> pegged = samples.stream().filter(Event.Sampled::saturated).findFirst();
    if (pegged.isPresent()) {
      return none(pegged.get().quality() + " reading of " + volts(pegged.get().value()));
    }
    return measured(meter.get(), still, moving);
  }

  private List<Measure> measured(
      InstrumentBounds meter, List<Event.Sampled> still, List<Event.Sampled> moving) {
    Channel channel = meter.channel();
    double[] readings = volts(channel, still);
    Spread rest = Spread.of(Arrays.stream(readings).boxed().toList());
    double lowest = Arrays.stream(volts(channel, moving)).min().orElseThrow();
    double sag = (rest.mean() - lowest) / rest.mean() * 100.0;
    if (!(rest.mean() > 0.0)) {
      return none("the supply at rest reads " + volts(rest.mean()) + ": is it switched on?");
    }
    List<Component> atRest = new ArrayList<>(reading(meter, rest.mean()));
    RestNoise.Known mean = RestNoise.of(List.of(readings)).ofMean(rest.deviation(), rest.count());
    atRest.add(Component.typeA("scatter of the readings", mean.standard(), mean.degrees()));
    List<Component> low = new ArrayList<>(reading(meter, lowest));
    low.add(Component.typeA("scatter of a reading", rest.deviation(), rest.count() - 1.0));
    double perVolt = 100.0 / rest.mean();
    List<Component> difference = new ArrayList<>();
    for (Component c : atRest) {
      difference.add(c.named(c.source() + ", at rest").times(perVolt * lowest / rest.mean()));
    }
    for (Component c : low) {
      difference.add(c.named(c.source() + ", lowest").times(-perVolt));
    }
    String seen =
        "one reading every "
            + Numbers.plain(judged.bench().samplePeriodSeconds())
            + " s; shorter dips are not seen";
    return List.of(
        value(MeasureKind.SUPPLY_AT_REST, rest.mean(), atRest, "n = " + rest.count()),
        value(MeasureKind.SUPPLY_LOWEST, lowest, low, seen),
        value(MeasureKind.SUPPLY_SAG, sag, difference, seen));
  }

  /** What was read, with the correction of the meter's certificate if the bench file states one. */
  private static double[] volts(Channel channel, List<Event.Sampled> samples) {
    return samples.stream()
        .mapToDouble(Event.Sampled::value)
        .map(v -> v + channel.correctionAt(v))
        .toArray();
  }

  private static List<Component> reading(InstrumentBounds meter, double volts) {
    List<Component> components = new ArrayList<>();
    meter.at(volts).forEach(b -> components.add(b.component(1.0)));
    double step = meter.channel().resolution();
    components.add(Component.rectangular("supply meter resolution", step / 2.0, 1.0));
    return components;
  }

  private static String volts(double value) {
    return Numbers.significant(value, 3) + " V";
  }

  private Measure value(MeasureKind kind, double value, List<Component> components, String note) {
    return Measures.value(kind, place, Truth.METER, value, components, METHOD, note);
  }

  private List<Measure> none(String reason) {
    List<Measure> measures = new ArrayList<>();
    for (MeasureKind kind :
        List.of(MeasureKind.SUPPLY_AT_REST, MeasureKind.SUPPLY_LOWEST, MeasureKind.SUPPLY_SAG)) {
      measures.add(Measures.none(kind, place, Truth.METER, METHOD, reason));
    }
    return measures;
  }
}
