package org.benchstroke.aids.diagnosis;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.DoubleSummaryStatistics;
import java.util.List;
import java.util.Optional;
import org.benchstroke.core.analysis.Direction;
import org.benchstroke.core.analysis.Strides;
import org.benchstroke.core.analysis.Trace;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.judge.JudgedRun;
import org.benchstroke.judge.Judgement;
import org.benchstroke.judge.Lines;
import org.benchstroke.judge.Location;
import org.benchstroke.judge.Measure;
import org.benchstroke.judge.Samples;
import org.benchstroke.judge.Truth;
import org.benchstroke.record.Event;
import org.benchstroke.record.RunFault;
import org.benchstroke.unit.MeasureKind;

/**
 * Finds the signs of a judged run. What is within the uncertainty, or too small to matter, is none;
 * what the run can't show is left out. The thresholds are our choices, above what sound units of a
 * series differ by.
 */
final class Signs {
  /** A stem on a whole unit is mounted and slack by a little more than its feedback is off. */
  static final double REVERSAL_STEP_PERCENT = 10.0;

  private static final double STEM_WORTH_SAYING = 0.45;

  /** Nor is it mated to more than this, % of travel. */
  private static final double STEM_OFF = 0.8;

  /** A large slack is not taken up in every move, and leaves so much of itself. */
  private static final double SLACK_LEAVES = 0.25;

  /** A stick is some 0.6 to 0.8 of what it lags by, and sticks again with a part of it left. */
  private static final double IN_STEP_FROM = 1.2;

  private static final double IN_STEP_TO = 2.0;

  /** A law that leaves more than this explains nothing, % of travel. */
  private static final double UNEXPLAINED = 0.6;

  /** Further from where its error elsewhere would have it, a stand is no matter of a law, %. */
  private static final double FAR_OFF = 3.0;

  /** Stands at one stop, or at one limit of the signal, differ by less, %. */
  private static final double ONE_PLACE = 0.6;

  private final JudgedRun run;
  private final Trace position;
  private final Trace stem;
  private final List<Stand> stands;
  private final Optional<Law> feedback;
  private final Optional<Law> beside;
  private final List<Evidence> found = new ArrayList<>();

  Signs(JudgedRun run) {
    Samples samples = run.samples();
    this.run = run;
    this.position = samples.position(Lines.of(run.record()));
    this.stem = samples.stem(Lines.of(run.record()));
    StandFinder all = new StandFinder(run, position, stem);
    List<Stand> ramps = all.alongRamps();
    this.stands = all.all();
    this.feedback =
        law(Law.of(LimitStop.without(stands), Stand::errorPercent))
            .or(() -> law(Law.of(ramps, Stand::errorPercent)).map(Law::underWay));
    this.beside = besides(stands).or(() -> besides(ramps));
  }

  private static Optional<Law> besides(List<Stand> stands) {
    boolean seen = stands.stream().allMatch(s -> s.stemPercent().isPresent());
    return seen
        ? Law.of(stands, Stand::besidePercent)
            .filter(l -> l.residual() < Math.max(UNEXPLAINED, SLACK_LEAVES * l.lag().value()))
        : Optional.empty();
  }

  /** What does not explain its stands says nothing. */
  private static Optional<Law> law(Optional<Law> law) {
    return law.filter(l -> l.residual() < UNEXPLAINED);
  }

  /** The law of the feedback's error; empty where there is none. */
  Optional<Law> feedback() {
    return feedback;
  }

  /** The law of what the stem stands beside the feedback. */
  Optional<Law> beside() {
    return beside;
  }

  List<Stand> stands() {
    return stands;
  }

  Symptoms symptoms() {
    return new Symptoms(all(), Denials.of(run, stands, feedback), run.passed());
  }

  private List<Evidence> all() {
    BenchSigns bench = new BenchSigns(run, position, this::add);
    bench.find();
    if (!bench.impossible()) {
      ofTheUnit();
    }
    return List.copyOf(found);
  }

  private void ofTheUnit() {
    feedback.ifPresent(this::errors);
    stemSigns();
    if (!stands.isEmpty()) {
      farOff();
    }
    Optional<Double> stop = SelfStops.first(run, position);
    if (stop.isPresent() || run.complete() || !stands.isEmpty()) {
      add(
          Sign.STOPS_BY_ITSELF,
          stop.isPresent(),
          stop.map(at -> "at " + Numbers.fixed(at, 1) + " %").orElse(""));
    }
    deadBand();
    double band = deadBands().stream().mapToDouble(m -> m.value().orElseThrow()).max().orElse(0.0);
    new EndSigns(run, position, stands, feedback, band, this::add).find();
    strides();
    new HoldSigns(run, this::add).find();
    reversals();
    supply();
  }

  private void errors(Law law) {
    add(Sign.CONSTANT_ERROR, law.zero().beyond(Law.WORTH_SAYING), percent(law.zero()));
    boolean grows = law.rise().beyond(Law.WORTH_SAYING);
    add(Sign.GROWING_ERROR, grows, percent(law.rise()) + " from 0 to 100 %");
    bent(Sign.FEEDBACK_BENT, law, Law.WORTH_SAYING);
    if (law.lag().told()) {
      boolean past = law.lag().value() < -(Law.WORTH_SAYING + law.lag().half());
      add(Sign.GOES_PAST, past, percent(law.lag()));
    }
    term(Sign.ERROR_DRIFTS, law.drift(), Law.WORTH_SAYING);
  }

  /** What the stands can't tell is no sign, neither seen nor missed. */
  private void term(Sign sign, Law.Term term, double least) {
    if (term.told()) {
      add(sign, term.beyond(least), percent(term));
    }
  }

  /** Seen if either bend is; not seen only where both could be. */
  private void bent(Sign sign, Law law, double least) {
    boolean seen = law.arc().beyond(least) || law.bend().beyond(least);
    if (seen || (law.arc().told() && law.bend().told())) {
      add(sign, seen, law.bent().map(Signs::percent).orElse(""));
    }
  }

  private void stemSigns() {
    if (beside.isPresent()) {
      Law b = beside.get();
      boolean lags = b.lag().value() > STEM_WORTH_SAYING + b.lag().half();
      add(Sign.STEM_LAGS, lags, percent(b.lag()));
      bent(Sign.STEM_BENT, b, STEM_WORTH_SAYING);
      offset(b);
      if (!lags && b.bend().told()) { // an S that is taken for a slope ends elsewhere
        seat(b);
      }
    }
    measures(MeasureKind.SEAT_LAG, Truth.STEM).stream()
        .findFirst()
        .ifPresent(
            m -> {
              double trails = m.value().orElseThrow();
              String figures = Numbers.fixed(trails, 1) + " %";
              add(Sign.STEM_TRAILS_AT_SEAT, trails > 0.3 + half(m), figures);
            });
    if (!stem.isEmpty()) {
      Strides even = Strides.of(stem, position, run.unit().percentPerSecond());
      if (even.possible()) {
        boolean jerks = even.usual() > 0.08 + even.stamps();
        if (jerks || !inStep()) {
          add(Sign.STEM_JERKS, jerks, Numbers.fixed(even.usual(), 3) + " %");
        }
      }
    }
  }

  /** Jerks as long as what it goes from one reading to the next are not seen. */
  private boolean inStep() {
    double way = run.unit().percentPerSecond() * run.bench().samplePeriodSeconds();
    double lag = beside.map(b -> b.lag().value()).orElse(0.0);
    return lag > IN_STEP_FROM * way && lag < IN_STEP_TO * way;
  }

  /** A feedback that is off by itself is off beside a stem that is right. */
  private void offset(Law b) {
    Optional<Law> own = feedback.filter(Signs::off);
    if (own.isPresent()) {
      Law f = own.get();
      double most = Math.max(Math.abs(f.zero().value()), Math.abs(f.atTop()));
      double apart = Math.max(Math.abs(b.zero().value()), Math.abs(b.atTop()));
      add(Sign.STEM_SHARES_ERROR, apart < 0.4 * most, percent(b.middle()) + " beside the feedback");
    }
    double stands = b.zero().value() + own.map(f -> f.zero().value()).orElse(0.0);
    boolean off = b.zero().beyond(STEM_OFF) && Math.abs(stands) > STEM_OFF + b.zero().half();
    add(Sign.STEM_OFFSET, off, percent(b.zero()));
  }

  private static boolean off(Law law) {
    return law.zero().beyond(Law.WORTH_SAYING) || law.rise().beyond(Law.WORTH_SAYING);
  }

  private void seat(Law b) {
    stands.stream()
        .filter(s -> s.setpointPercent() > -0.1 && s.setpointPercent() < 0.1 && s.way() < 0)
        .mapToDouble(s -> s.besidePercent() - b.at(s) - b.lag().value() / 2.0)
        .average()
        .ifPresent(
            off ->
                add(
                    Sign.STEM_OFF_AT_SEAT,
                    Math.abs(off) > Law.WORTH_SAYING,
                    Numbers.signed(off, 2) + " %"));
  }

  private void farOff() {
    double usual = median(stands.stream().mapToDouble(Stand::errorPercent).sorted().toArray());
    List<Stand> far =
        stands.stream()
            .filter(s -> s.within() && Math.abs(s.errorPercent() - expected(s, usual)) > FAR_OFF)
            .toList();
    add(Sign.STANDS_FAR_OFF, !far.isEmpty(), far.stream().findFirst().map(Signs::place).orElse(""));
    List<Stand> shortOf =
        stands.stream()
            .filter(s -> !s.openMade() && !s.closedMade())
            .filter(s -> Math.abs(s.errorPercent() - expected(s, usual)) > FAR_OFF)
            .toList();
    if (shortOf.size() > 1) {
      DoubleSummaryStatistics places =
          shortOf.stream().mapToDouble(Stand::feedbackPercent).summaryStatistics();
      boolean one = places.getMax() - places.getMin() < ONE_PLACE;
      add(Sign.STANDS_AT_ONE_PLACE, one, Numbers.fixed(places.getAverage(), 1) + " %");
    }
  }

  private static String place(Stand s) {
    return Numbers.fixed(s.feedbackPercent(), 1)
        + " % instead of "
        + Numbers.fixed(s.setpointPercent(), 1)
        + " %";
  }

  private double expected(Stand s, double usual) {
    return feedback.map(l -> l.at(s)).orElse(usual);
  }

  /** Noise at one place more than elsewhere, in motion or at rest. */
  private void strides() {
    Strides even = Strides.of(position, position, run.unit().percentPerSecond());
    double quiet = median(stands.stream().mapToDouble(Stand::jitterPercent).sorted().toArray());
    Optional<Stand> loud =
        stands.stream()
            .max(Comparator.comparingDouble(Stand::jitterPercent))
            .filter(s -> quiet > 0);
    boolean inMotion = even.worst() > Math.max(0.035 + even.stamps(), 2.5 * even.usual());
    boolean atRest = loud.map(s -> s.jitterPercent() > Math.max(0.025, 4.0 * quiet)).orElse(false);
    if (even.possible()) {
      add(
          Sign.NOISY_STRETCH,
          inMotion || atRest,
          atRest
              ? noise(loud.get().feedbackPercent(), loud.get().jitterPercent(), quiet)
              : noise(even.worstAt(), even.worst(), even.usual()));
    }
  }

  private static String noise(double at, double here, double elsewhere) {
    return Numbers.fixed(here, 3)
        + " % at "
        + Numbers.fixed(at, 0)
        + " %, "
        + Numbers.fixed(elsewhere, 3)
        + " % elsewhere";
  }

  private static double median(double[] sorted) {
    return sorted.length == 0 ? 0.0 : sorted[sorted.length / 2];
  }

  /**
   * A step down after one up is a reversal; the first step up is not. Of the size whose likelihoods
   * were counted.
   */
  private void reversals() {
    List<Measure> times = measures(MeasureKind.DEAD_TIME, Truth.CLOCK);
    for (Measure down : times) {
      if (down.place().equals(new Location.StepOf(REVERSAL_STEP_PERCENT, Direction.DOWN))) {
        times.stream()
            .filter(m -> m.place().equals(new Location.StepOf(REVERSAL_STEP_PERCENT, Direction.UP)))
            .findFirst()
            .ifPresent(up -> reversal(up, down));
      }
    }
  }

  private void reversal(Measure up, Measure down) {
    double more = down.value().orElseThrow() - up.value().orElseThrow();
    double half = Math.hypot(half(up), half(down));
    add(Sign.LATE_AT_REVERSAL, more > Math.max(0.13, half), Numbers.signed(more, 2) + " s");
  }

  private List<Measure> deadBands() {
    return measures(MeasureKind.DEAD_BAND, Truth.FEEDBACK);
  }

  /** The smallest: at one place something else may hold the unit. */
  private void deadBand() {
    deadBands().stream()
        .min(Comparator.comparingDouble(m -> m.value().orElseThrow()))
        .ifPresent(
            m -> {
              double band = m.value().orElseThrow();
              double setting = run.unit().deadBandPercent();
              String figures =
                  Numbers.within(band, half(m), 2, "%")
                      + ", set to "
                      + Numbers.fixed(setting, 2)
                      + " %";
              add(Sign.DEAD_BAND_WIDE, band > 2.0 * setting + half(m), figures);
            });
  }

  private void supply() {
    double usual = run.unit().strokeSeconds();
    measures(MeasureKind.STROKE_TIME_OPENING, Truth.CLOCK).stream()
        .findFirst()
        .ifPresent(
            m -> {
              double longer = m.value().orElseThrow() / usual - 1.0;
              boolean slow = longer > 0.07 + half(m) / usual;
              add(Sign.SLOW, slow, Numbers.signed(100.0 * longer, 0) + " %");
            });
    measures(MeasureKind.SUPPLY_SAG, Truth.METER).stream()
        .findFirst()
        .ifPresent(
            m -> {
              double sag = m.value().orElseThrow();
              add(Sign.SUPPLY_SAGS, sag > 4.0 + half(m), Numbers.fixed(sag, 1) + " %");
            });
  }

  private void add(Sign sign, boolean seen, String figures) {
    found.add(new Evidence(sign, seen, figures));
  }

  private List<Measure> measures(MeasureKind kind, Truth truth) {
    return run.judgements().stream()
        .map(Judgement::measure)
        .filter(m -> m.kind() == kind && m.truth() == truth)
        .filter(m -> m.value().isPresent() && m.budget().isPresent())
        .toList();
  }

  private static double half(Measure m) {
    return m.budget().orElseThrow().expand().half();
  }

  private static String percent(Law.Term term) {
    return Numbers.signedWithin(term.value(), term.half(), 2, "%");
  }

  /** Takes one sign in. */
  interface Taker {
    void add(Sign sign, boolean seen, String figures);
  }

  /** Whether such a fault is in the record. */
  static boolean faulted(JudgedRun run, RunFault fault) {
    return run.record().events(Event.Faulted.class).anyMatch(f -> f.fault() == fault);
  }
}
