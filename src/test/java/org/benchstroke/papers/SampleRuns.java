package org.benchstroke.papers;

import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import org.benchstroke.bench.BenchFile;
import org.benchstroke.bench.InstrumentSpec;
import org.benchstroke.core.analysis.Direction;
import org.benchstroke.core.analysis.RestReading;
import org.benchstroke.core.quantity.Current;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.core.quantity.Position;
import org.benchstroke.core.quantity.SignalRange;
import org.benchstroke.core.uncertainty.Budget;
import org.benchstroke.core.uncertainty.Component;
import org.benchstroke.io.instrument.Role;
import org.benchstroke.io.scpi.ScpiSettings;
import org.benchstroke.io.transport.Endpoint;
import org.benchstroke.judge.AsOrdered;
import org.benchstroke.judge.Finding;
import org.benchstroke.judge.JudgedRun;
import org.benchstroke.judge.Judgement;
import org.benchstroke.judge.Locations;
import org.benchstroke.judge.Measure;
import org.benchstroke.judge.Scope;
import org.benchstroke.judge.TestSummary;
import org.benchstroke.judge.Truth;
import org.benchstroke.judge.Word;
import org.benchstroke.procedure.LossWay;
import org.benchstroke.procedure.Procedure;
import org.benchstroke.record.RunRecord;
import org.benchstroke.tests.exercise.Exercise;
import org.benchstroke.tests.loss.SignalLoss;
import org.benchstroke.tests.travel.TravelError;
import org.benchstroke.unit.DecisionRule;
import org.benchstroke.unit.Duty;
import org.benchstroke.unit.FailAction;
import org.benchstroke.unit.Limit;
import org.benchstroke.unit.MeasureKind;
import org.benchstroke.unit.Practice;
import org.benchstroke.unit.UnitType;

/** Judged runs made by hand; all names and numbers are invented. */
final class SampleRuns {
  static final double[] POINTS = {0, 25, 50, 75, 100};

  private static final Limit ERROR_LIMIT =
      new Limit(
          MeasureKind.TRAVEL_ERROR,
          OptionalDouble.of(-1.0),
          OptionalDouble.of(1.0),
          DecisionRule.GUARD_BAND_U);

  private SampleRuns() {}

  /** A clean unit on a simulated bench; the stem was not seen. */
  static JudgedRun cleanPass() {
    double[] up = {0.04, -0.06, -0.03, 0.02, -0.08};
    double[] down = {0.09, 0.05, 0.08, 0.07, 0.01};
    List<Judgement> judgements = new ArrayList<>(errors(Truth.FEEDBACK, up, down));
    judgements.add(judged(MeasureKind.ZERO_ERROR, "", Truth.FEEDBACK, 0.065, 1.0));
    judgements.add(judged(MeasureKind.SPAN_ERROR, "", Truth.FEEDBACK, -0.1, 1.0));
    judgements.add(
        judged(MeasureKind.HYSTERESIS_PLUS_DEAD_BAND, "50 %", Truth.FEEDBACK, 0.11, 1.0));
    judgements.add(unlimited(MeasureKind.LINEARITY_INDEPENDENT, 0.052));
    judgements.add(strokeTime(MeasureKind.STROKE_TIME_OPENING, 15.02));
    judgements.add(strokeTime(MeasureKind.STROKE_TIME_CLOSING, 14.89));
    return run(
        "QT-104-0231",
        SampleRecords.whole("a clean unit, invented.", "QT-104-0231"),
        judgements,
        List.of(
            new AsOrdered(
                AsOrdered.Subject.ACTION,
                "",
                "direct: more current opens",
                "direct: +99.9 % for +16 mA",
                Word.PASS,
                "action/1"),
            new AsOrdered(
                AsOrdered.Subject.SIGNAL_LOSS,
                "low",
                "holds at 3.9 mA",
                "moved 0.02 % in 20 s",
                Word.PASS,
                "signal-loss/1"),
            new AsOrdered(
                AsOrdered.Subject.SIGNAL_LOSS,
                "open loop",
                "close within 1 s",
                "began to close after 0.42 s, rested at 0.0 %",
                Word.PASS,
                "signal-loss/1")),
        readings(up, down, 2),
        List.of(),
        List.of(),
        Word.PASS,
        "All 13 judged measures are within their limits less U, and the unit acts as ordered.",
        true);
  }

  /** The span is wrong, a stem reference shows slack as well; a real bench. */
  static JudgedRun spanFailWithStem() {
    double[] up = {0.02, 0.36, 0.79, 0.93, 1.62};
    double[] down = {0.08, 0.44, 0.88, 1.04, 1.66};
    double[] stemUp = {-0.41, -0.12, 0.31, 0.44, 1.13};
    double[] stemDown = {0.55, 0.91, 1.33, 1.51, 2.14};
    List<Judgement> judgements = new ArrayList<>(errors(Truth.FEEDBACK, up, down));
    judgements.addAll(errors(Truth.STEM, stemUp, stemDown));
    judgements.add(judged(MeasureKind.SPAN_ERROR, "", Truth.FEEDBACK, 1.59, 1.0));
    judgements.add(
        judged(MeasureKind.HYSTERESIS_PLUS_DEAD_BAND, "50 %", Truth.FEEDBACK, 0.09, 1.0));
    judgements.add(judged(MeasureKind.HYSTERESIS_PLUS_DEAD_BAND, "50 %", Truth.STEM, 1.02, 1.0));
    judgements.add(strokeTime(MeasureKind.STROKE_TIME_OPENING, 15.31));
    return run(
        "QT-104-0232",
        SampleRecords.whole("", "QT-104-0232"),
        judgements,
        List.of(),
        readings(up, down, 1),
        readings(stemUp, stemDown, 1),
        List.of(
            told("The error grows with the setpoint: +1.62 % ± 0.13 % at 100 % up, limit ±1 %."),
            told(
                "The stem trails the feedback by 0.9 % at each reversal: slack beyond the"
                    + " sensor.")),
        Word.FAIL,
        "Travel error at 100 % up is +1.62 % ± 0.13 %, beyond the limit of ±1 %.",
        true);
  }

  private static Finding told(String sentence) {
    return new Finding(Finding.Kind.NOTE, sentence);
  }

  /** The bench lost its position transmitter in the travel test. */
  static JudgedRun interrupted() {
    double[] up = {0.04, -0.06, Double.NaN, Double.NaN, Double.NaN};
    double[] none = {Double.NaN, Double.NaN, Double.NaN, Double.NaN, Double.NaN};
    List<Judgement> judgements = new ArrayList<>(errors(Truth.FEEDBACK, up, none));
    return run(
        "QT-104-0233",
        SampleRecords.interrupted("QT-104-0233"),
        judgements,
        List.of(),
        readings(up, none, 1),
        List.of(),
        List.of(told("The position transmitter stopped answering after 120.0 s.")),
        Word.NO_RESULT,
        "The run ended before the travel test was complete.",
        false);
  }

  /** The clean run with other words in its opening line. */
  static JudgedRun withSerial(String serial) {
    JudgedRun clean = cleanPass();
    return run(
        serial,
        SampleRecords.whole("a clean unit, invented.", serial),
        clean.judgements(),
        clean.orders(),
        clean.feedback(),
        clean.stem(),
        List.of(told("Finding about " + serial)),
        clean.verdict(),
        clean.reason(),
        true);
  }

  /** A run whose judge says pass although it was not whole. */
  static JudgedRun passButIncomplete() {
    JudgedRun r = cleanPass();
    return new JudgedRun(
        r.record(),
        r.bench(),
        r.unit(),
        r.procedure(),
        r.tests(),
        r.judgements(),
        r.orders(),
        r.feedback(),
        r.stem(),
        r.traces(),
        r.findings(),
        Word.PASS,
        r.reason(),
        false);
  }

  /** The clean run with another reason. */
  static JudgedRun withReason(String reason) {
    JudgedRun r = cleanPass();
    return new JudgedRun(
        r.record(),
        r.bench(),
        r.unit(),
        r.procedure(),
        r.tests(),
        r.judgements(),
        r.orders(),
        r.feedback(),
        r.stem(),
        r.traces(),
        r.findings(),
        r.verdict(),
        reason,
        true);
  }

  private static JudgedRun run(
      String serial,
      RunRecord record,
      List<Judgement> judgements,
      List<AsOrdered> orders,
      List<RestReading> feedback,
      List<RestReading> stem,
      List<Finding> findings,
      Word word,
      String reason,
      boolean complete) {
    List<TestSummary> tests =
        List.of(
            new TestSummary("exercise", "complete", 1, ""),
            complete
                ? new TestSummary("travel error", "complete", 2, "")
                : new TestSummary("travel error", "void", 1, "no reply from the transmitter"),
            complete
                ? new TestSummary("signal loss", "complete", 1, "")
                : new TestSummary("signal loss", "not done", 0, "the run ended before"));
    if (!record.opened().serial().equals(serial)) {
      throw new IllegalArgumentException("the record is of another unit");
    }
    return new JudgedRun(
        record,
        bench(!stem.isEmpty()),
        unit(),
        procedure(),
        tests,
        judgements,
        orders,
        feedback,
        stem,
        List.of(),
        findings,
        word,
        reason,
        complete);
  }

  private static Procedure procedure() {
    List<Position> points = new ArrayList<>();
    for (double point : POINTS) {
      points.add(Position.ofPercent(point));
    }
    return new Procedure(
        "routine, five points",
        "3",
        List.of(
            new Exercise(3),
            new TravelError(points, 1),
            new SignalLoss(Position.ofPercent(50), List.of(LossWay.LOW, LossWay.OPEN_LOOP))));
  }

  private static UnitType unit() {
    return new UnitType(
        "QT-104, 15 s, 4–20 mA",
        90.0,
        15.0,
        SignalRange.FOUR_TO_TWENTY,
        SignalRange.FOUR_TO_TWENTY,
        Current.ofMilliamps(4.0),
        new UnitType.SignalLoss(
            FailAction.CLOSE, 1.0, Current.ofMilliamps(3.9), Current.ofMilliamps(3.5)),
        0.3,
        0.3,
        OptionalDouble.empty(),
        Map.of(),
        List.of(ERROR_LIMIT),
        Practice.USUAL,
        Duty.UNSTATED);
  }

  private static BenchFile bench(boolean stem) {
    List<InstrumentSpec> instruments = new ArrayList<>();
    instruments.add(
        instrument("loop source", EnumSet.of(Role.SIGNAL_SOURCE), "LS-2", "8812", "2026-09-30"));
    instruments.add(
        instrument(
            "position input",
            EnumSet.of(Role.POSITION_TRANSMITTER, Role.LOOP_METER),
            "AI-4",
            "1177",
            "2026-01-31"));
    if (stem) {
      instruments.add(
          instrument(
              "stem encoder", EnumSet.of(Role.ANGLE_REFERENCE), "RE-36", "53", "2026-06-30"));
    }
    return new BenchFile("bench 2 (invented)", "Hall B", 0.1, Optional.empty(), instruments);
  }

  private static InstrumentSpec instrument(
      String name, Set<Role> roles, String model, String serial, String due) {
    return new InstrumentSpec(
        name,
        roles,
        ScpiSettings.USUAL,
        new Endpoint.Tcp("127.0.0.1", 5025),
        1.0,
        "Ostrava Invented",
        model,
        serial,
        new InstrumentSpec.Calibration(
            "CAL-" + serial, LocalDate.of(2025, 9, 30), LocalDate.parse(due)),
        Map.of(),
        OptionalDouble.empty());
  }

  private static List<RestReading> readings(double[] up, double[] down, int cycles) {
    List<RestReading> readings = new ArrayList<>();
    for (int cycle = 1; cycle <= cycles; cycle++) {
      // the second cycle lies a little higher
      double shift = (cycle - 1) * 0.01;
      for (int i = 0; i < POINTS.length; i++) {
        if (!Double.isNaN(up[i])) {
          double mean = POINTS[i] + up[i] + shift;
          readings.add(new RestReading(POINTS[i], Direction.UP, cycle, mean, 0.012, 20));
        }
        if (!Double.isNaN(down[i])) {
          double mean = POINTS[i] + down[i] + shift;
          readings.add(new RestReading(POINTS[i], Direction.DOWN, cycle, mean, 0.011, 20));
        }
      }
    }
    return readings;
  }

  private static List<Judgement> errors(Truth truth, double[] up, double[] down) {
    List<Judgement> judgements = new ArrayList<>();
    for (int i = 0; i < POINTS.length; i++) {
      String place = Numbers.plain(POINTS[i]) + " % ";
      judgements.add(judged(MeasureKind.TRAVEL_ERROR, place + "up", truth, up[i], 1.0));
      judgements.add(judged(MeasureKind.TRAVEL_ERROR, place + "down", truth, down[i], 1.0));
    }
    return judgements;
  }

  private static Judgement judged(
      MeasureKind kind, String place, Truth truth, double value, double limit) {
    Limit held =
        new Limit(
            kind, OptionalDouble.of(-limit), OptionalDouble.of(limit), DecisionRule.GUARD_BAND_U);
    if (Double.isNaN(value)) {
      Measure measure =
          new Measure(
              kind,
              Locations.of(place),
              truth,
              Optional.empty(),
              Optional.empty(),
              method(kind),
              "did not settle, or was not reached",
              Scope.READINGS);
      return new Judgement(
          measure, Optional.of(held), Optional.of(Word.NO_RESULT), OptionalDouble.empty());
    }
    Budget budget = budget();
    double half = budget.expand(0.95).half();
    Measure measure =
        new Measure(
            kind,
            Locations.of(place),
            truth,
            Optional.of(value),
            Optional.of(budget),
            method(kind),
            "",
            Scope.UNIT);
    double size = Math.abs(value);
    Word word =
        size <= limit - half
            ? Word.PASS
            : size <= limit
                ? Word.CONDITIONAL_PASS
                : size <= limit + half ? Word.CONDITIONAL_FAIL : Word.FAIL;
    double probability =
        switch (word) {
          case PASS -> 0.9996;
          case CONDITIONAL_PASS -> 0.912;
          case CONDITIONAL_FAIL -> 0.214;
          case FAIL, NO_RESULT -> 0.0002;
        };
    return new Judgement(
        measure, Optional.of(held), Optional.of(word), OptionalDouble.of(probability));
  }

  private static Judgement unlimited(MeasureKind kind, double value) {
    Measure measure =
        new Measure(
            kind,
            Locations.of(""),
            Truth.FEEDBACK,
            Optional.of(value),
            Optional.of(budget()),
            method(kind),
            "",
            Scope.UNIT);
    return new Judgement(measure, Optional.empty(), Optional.empty(), OptionalDouble.empty());
  }

  private static Judgement strokeTime(MeasureKind kind, double seconds) {
    Budget budget = new Budget("s", List.of(Component.rectangular("clock stamps", 0.05, 1.0)));
    Measure measure =
        new Measure(
            kind,
            Locations.of(""),
            Truth.CLOCK,
            Optional.of(seconds),
            Optional.of(budget),
            method(kind),
            "mean of 3 strokes",
            Scope.UNIT);
    Limit limit =
        new Limit(
            kind, OptionalDouble.of(13.5), OptionalDouble.of(16.5), DecisionRule.GUARD_BAND_U);
    return new Judgement(
        measure, Optional.of(limit), Optional.of(Word.PASS), OptionalDouble.of(0.99999));
  }

  static Budget budget() {
    return new Budget(
        "%",
        List.of(
            Component.typeA("mean of the position at rest", 0.012, 19),
            Component.rectangular("position input, accuracy", 0.012, 6.25).in("mA"),
            Component.rectangular("loop meter, accuracy", 0.011, -6.25).in("mA"),
            Component.rectangular("position input, resolution", 0.0005, 6.25).in("mA")));
  }

  private static String method(MeasureKind kind) {
    return kind.key().replaceAll("_(pct|s)$", "").replace('_', '-') + "/1";
  }

  /** The moment at which all of them began. */
  static Instant began() {
    return Instant.parse("2026-03-04T09:12:30Z");
  }
}
