package org.benchstroke.tests.power;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.benchstroke.core.analysis.PositionNoise;
import org.benchstroke.core.analysis.RestNoise;
import org.benchstroke.core.analysis.Spread;
import org.benchstroke.core.analysis.Trace;
import org.benchstroke.core.analysis.TraceGuards;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.core.uncertainty.Component;
import org.benchstroke.judge.AsOrdered;
import org.benchstroke.judge.AsOrdered.Subject;
import org.benchstroke.judge.Chapter;
import org.benchstroke.judge.JudgedBench;
import org.benchstroke.judge.Lines;
import org.benchstroke.judge.Location;
import org.benchstroke.judge.Measure;
import org.benchstroke.judge.Measures;
import org.benchstroke.judge.PositionBudget;
import org.benchstroke.judge.RestWait;
import org.benchstroke.judge.Samples;
import org.benchstroke.judge.TestJudge;
import org.benchstroke.judge.TestResult;
import org.benchstroke.judge.Truth;
import org.benchstroke.judge.Word;
import org.benchstroke.procedure.Aim;
import org.benchstroke.record.Event;
import org.benchstroke.tests.power.PowerLoss.Moment;
import org.benchstroke.unit.MeasureKind;

/** How far a unit without motor power went, and whether it came back to its setpoint. */
public final class PowerLossMeasures implements TestJudge {
  private static final int ENDS = 10;
  private static final String METHOD = "power-loss/2";
  private static final MeasureKind KIND = MeasureKind.POWER_LOSS_DRIFT;

  private final JudgedBench judged;
  private final PowerLoss spec;
  private final Optional<Chapter> attempt;

  public PowerLossMeasures(JudgedBench judged, PowerLoss spec, Optional<Chapter> attempt) {
    this.judged = judged;
    this.spec = spec;
    this.attempt = attempt;
  }

  @Override
  public TestResult result() {
    List<Measure> measures = new ArrayList<>();
    List<AsOrdered> orders = new ArrayList<>();
    for (Moment moment : spec.moments()) {
      measures.add(drift(moment));
      orders.add(comeback(moment));
    }
    return TestResult.measures(measures).andOrders(orders);
  }

  /** The samples before the supply went off, and while it was. */
  private record Cut(Trace before, Trace away, double from, double to) {}

  private Measure drift(Moment moment) {
    PositionBudget budget = judged.budget(Truth.FEEDBACK);
    Optional<String> lacking = budget.instruments().lacking();
    if (lacking.isPresent()) {
      return none(moment, lacking.get());
    }
    Optional<Cut> cut = cut(moment);
    if (cut.isEmpty()) {
      return none(moment, whyNot());
    }
    Optional<String> unfit = unfit(cut.get());
    return unfit.isPresent() ? none(moment, unfit.get()) : drift(moment, cut.get(), budget);
  }

  /**
   * From the last sample before the supply went off to the mean at the end of the time without it.
   * A unit that moves is somewhere further along when the relay opens: the time between counts as a
   * bound.
   */
  private Measure drift(Moment moment, Cut cut, PositionBudget budget) {
    Spread end = cut.away().last(ENDS).spread();
    boolean moving = moment == Moment.MOVING;
    Trace start = moving ? cut.before().last(1) : cut.before().last(ENDS);
    double noise = end.deviation();
    double from = start.spread().mean();
    // In enough noise the steps of the reading average out and show in the scatter.
    boolean averaged = new PositionNoise(noise, judged.samples().resolutionPercent()).dithers();
    List<Component> components = new ArrayList<>();
    // The signal stays as it is, and with it what the source is off by.
    for (Component step : budget.instruments().meterStep()) {
      if (moving || !averaged) {
        components.add(step.named(step.source() + ", before"));
      }
      if (!averaged) {
        components.add(step.named(step.source() + ", after").times(-1.0));
      }
    }
    RestNoise neighbours = judged.noise(Truth.FEEDBACK);
    RestNoise.Known after = neighbours.ofMean(noise, end.count());
    RestNoise.Known before = start.size() < 2 ? neighbours.ofOne(noise, end.count()) : after;
    components.add(Component.typeA("noise before", before.standard(), before.degrees()));
    components.add(Component.typeA("noise after", after.standard(), after.degrees()));
    double value = end.mean() - from;
    if (moving) {
      Trace.Sample last = start.get(0);
      double blind = cut.away().get(0).seconds() - last.seconds() + last.stampHalfSeconds();
      double half = blind * judged.unit().percentPerSecond() / 2.0;
      value -= half;
      components.add(Component.rectangular("instant of the cut × speed", half, 1.0));
    }
    String note = "from the cut to the last " + ENDS + " samples without power";
    return Measures.value(
        KIND, new Location.Case(moment.key()), Truth.FEEDBACK, value, components, METHOD, note);
  }

  private Optional<String> unfit(Cut cut) {
    if (cut.before().size() < ENDS || cut.away().size() < 2 * ENDS) {
      return Optional.of("too few position samples around the cut");
    }
    if (stillMoving(cut.away())) {
      return Optional.of("it was still moving when the power returned; make away_s longer");
    }
    Trace before = cut.before().last(ENDS);
    return TraceGuards.gapWithin(
            cut.away(), cut.from(), cut.to(), judged.samples().longestPauseSeconds())
        .or(() -> TraceGuards.saturated(cut.away()))
        .or(() -> TraceGuards.saturated(before))
        .or(
            () ->
                TraceGuards.impossibleSlew(
                    cut.away(),
                    judged.samples().fastestPercentPerSecond(),
                    cut.away().last(ENDS).spread().deviation(),
                    judged.samples().resolutionPercent()));
  }

  /** Whether the last samples lie elsewhere than those before them, by more than noise explains. */
  private boolean stillMoving(Trace away) {
    Spread last = away.last(ENDS).spread();
    Spread before = away.last(2 * ENDS).first(ENDS).spread();
    RestNoise neighbours = judged.noise(Truth.FEEDBACK);
    double noise =
        4.0
            * Math.hypot(
                neighbours.ofMean(last.deviation(), ENDS).standard(),
                neighbours.ofMean(before.deviation(), ENDS).standard());
    double band = judged.unit().practice().restBandPercent();
    return Math.abs(last.mean() - before.mean()) > band + noise;
  }

  /** It must be back at its setpoint, and one that stood there all along must move, too. */
  private AsOrdered comeback(Moment moment) {
    Aim after = new PowerLoss.Moved(moment);
    List<Event.Rested> rests =
        attempt
            .map(a -> a.arrivals(aim -> aim.equals(moment) || aim.equals(after)))
            .orElse(List.of())
            .stream()
            .map(RestWait::found)
            .toList();
    boolean moved = attempt.filter(a -> !a.arrivals(after::equals).isEmpty()).isPresent();
    if (rests.isEmpty() || (moment == Moment.AT_REST && !moved)) {
      String why = rests.isEmpty() ? whyNot() : "the record holds no move after the return";
      return returned(moment, why, Word.NO_RESULT);
    }
    List<String> found = new ArrayList<>();
    Word word = Word.PASS;
    for (Event.Rested rest : rests) {
      Optional<String> unfit = unfit(rest);
      if (unfit.isPresent()) {
        return returned(moment, unfit.get(), Word.NO_RESULT);
      }
      word = there(rest) ? word : Word.FAIL;
      found.add(where(rest));
    }
    return returned(moment, String.join("; ", found), word);
  }

  private static AsOrdered returned(Moment moment, String found, Word word) {
    String which = moment.key() + ", return";
    String ordered = "comes back to its setpoint when the power returns";
    return new AsOrdered(Subject.POWER_LOSS, which, ordered, found, word, METHOD);
  }

  private Optional<String> unfit(Event.Rested rest) {
    Trace trace = judged.samples().atRest(lines(), rest);
    return trace.isEmpty() ? Optional.of("no sample at rest") : TraceGuards.saturated(trace);
  }

  private double at(Event.Rested rest) {
    return judged.samples().atRest(lines(), rest).spread().mean();
  }

  private boolean there(Event.Rested rest) {
    double off = Math.abs(at(rest) - rest.setpointPercent());
    return rest.settled() && off <= judged.unit().practice().lossEndPercent();
  }

  private String where(Event.Rested rest) {
    return (rest.settled() ? "at " : "did not come to rest, was at ")
        + Numbers.fixed(at(rest), 1)
        + " %, setpoint "
        + Numbers.fixed(rest.setpointPercent(), 1)
        + " %";
  }

  private Lines lines() {
    return attempt.map(Chapter::lines).orElse(Lines.NONE);
  }

  private Optional<Cut> cut(Moment moment) {
    return attempt
        .flatMap(a -> a.watched(moment::equals).stream().reduce((first, last) -> last))
        .map(
            w -> {
              double from = Samples.seconds(w.fromNanos());
              double to = Samples.seconds(w.toNanos());
              Trace all = judged.samples().position(lines());
              Trace before = all.between(Double.NEGATIVE_INFINITY, from);
              return new Cut(before, all.between(from, to), from, to);
            });
  }

  private String whyNot() {
    return attempt.isEmpty() ? "the test was not completed" : "the record holds no such cut";
  }

  private static Measure none(Moment moment, String reason) {
    return Measures.none(KIND, new Location.Case(moment.key()), Truth.FEEDBACK, METHOD, reason);
  }
}
