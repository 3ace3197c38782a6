package org.benchstroke.judge;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.benchstroke.bench.BenchFile;
import org.benchstroke.bench.InstrumentSpec;
import org.benchstroke.core.analysis.Direction;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.io.instrument.Role;
import org.benchstroke.judge.AsOrdered.Subject;
import org.benchstroke.judge.Finding.Kind;
import org.benchstroke.record.Event;
import org.benchstroke.unit.UnitType;

/**
 * What stands out of a judged run beside what its tests tell. No search for causes: each sentence
 * says what was seen, and the thresholds decide only whether it is worth saying.
 */
final class Findings {
  private static final double WORTH_SAYING_CREEP = 0.1;

  /** Of 4 to 20 mA these are −0.8 and 24.8 mA, %. Common practice, no source. */
  private static final double MIDDLE = 50.0;

  private static final double FARTHEST = 80.0;

  private final JudgedBench judged;
  private final BenchFile bench;
  private final UnitType unit;
  private final Samples samples;
  private final List<TestResult> results;
  private final List<Judgement> judgements;
  private final List<AsOrdered> orders;
  private final List<Finding> findings = new ArrayList<>();

  Findings(
      JudgedBench judged,
      List<TestResult> results,
      List<Judgement> judgements,
      List<AsOrdered> orders) {
    this.judged = judged;
    this.bench = judged.bench();
    this.unit = judged.unit();
    this.samples = judged.samples();
    this.results = results;
    this.judgements = judgements;
    this.orders = orders;
  }

  List<Finding> all() {
    recordedElsewhere();
    for (String channel : List.of("position", "stem")) {
      impossible(channel).ifPresent(what -> add(Kind.IMPOSSIBLE_READING, what));
    }
    judged.conversion().ifPresent(seconds -> add(Kind.SELDOM_CONVERTED, seldom(seconds)));
    action();
    creeps(Truth.FEEDBACK).ifPresent(what -> add(Kind.CREEP, what));
    creeps(Truth.STEM).ifPresent(what -> add(Kind.CREEP, what));
    stem();
    setpoint();
    simpleAcceptance().ifPresent(what -> add(Kind.SIMPLE_ACCEPTANCE, what));
    findings.addAll(Ambient.findings(bench, judged.record()));
    return findings;
  }

  private void add(Kind kind, String sentence) {
    findings.add(new Finding(kind, sentence));
  }

  private void action() {
    for (AsOrdered order : orders) {
      if (order.word() == Word.FAIL && order.isOf(Subject.ACTION)) {
        add(Kind.ACTION, "Action is not as ordered: " + order.found() + ".");
      }
    }
  }

  private void stem() {
    boolean asked = results.stream().anyMatch(r -> r.rests().isPresent());
    if (asked && results.stream().allMatch(r -> r.rests(Truth.STEM).isEmpty())) {
      add(
          Kind.STEM_NOT_PROVEN,
          bench.playing(Role.ANGLE_REFERENCE).isPresent()
              ? "Stem not proven: the record holds no reading of the angle reference."
              : "Stem not proven: no angle reference was fitted.");
    }
  }

  private void setpoint() {
    if (bench.playing(Role.LOOP_METER).isPresent() && bench.sourceReadsItself()) {
      add(Kind.SETPOINT_NOT_PROVEN, "Setpoint not proven: " + JudgedBench.ONE_BOX + ".");
    }
    if (judged.byEye(Role.POSITION_TRANSMITTER)) {
      add(
          Kind.READ_BY_EYE,
          "Position read by a person from a display, at rest only: how the unit got there was not"
              + " seen.");
    }
    if (bench.playing(Role.SIGNAL_SOURCE).map(InstrumentSpec::typedIn).orElse(false)
        && bench.playing(Role.LOOP_METER).isEmpty()) {
      add(
          Kind.SETPOINT_NOT_PROVEN,
          judged.record().events(Event.Imported.class).findAny().isPresent()
              ? "Setpoint not proven: it is what the file says, and nothing measured the loop."
              : "Setpoint not proven: a person set the source by hand, and nothing measured the"
                  + " loop.");
    }
    if (judged.byEye(Role.LOOP_METER)) {
      add(
          Kind.SETPOINT_NOT_PROVEN,
          "Setpoint proven before motion only: the loop meter was read by eye and typed in, and"
              + " not read during the tests.");
    }
  }

  private String seldom(double seconds) {
    String every = Numbers.significant(seconds, 2) + " s";
    return "The position input gets a new value only every "
        + every
        + ", less often than it is read: what it shows may be that much older, and U of every time"
        + " allows for it. "
        + (judged.logged() ? "Have it logged every " : "Read it every ")
        + every
        + (judged.logged() ? "" : " (sample_period_ms in the bench file)")
        + ", or use an input that converts more often.";
  }

  private void recordedElsewhere() {
    judged
        .record()
        .events(Event.Imported.class)
        .forEach(
            imported -> {
              add(
                  Kind.RECORDED_ELSEWHERE,
                  "Recorded elsewhere, not by this program: "
                      + imported.file()
                      + " (SHA-256 "
                      + imported.sha256()
                      + "). Who set what, and with which instruments, rests on the word of whoever"
                      + " recorded it.");
              imported.notes().forEach(note -> add(Kind.RECORDED_ELSEWHERE, note));
            });
  }

  /** Readings that no unit can have: what is judged may lie elsewhere, but they are told. */
  private Optional<String> impossible(String channel) {
    int count = 0;
    double farthest = 0.0;
    double at = 0.0;
    for (Event.Sampled s : judged.record().events(Event.Sampled.class).toList()) {
      double beyond = s.channel().equals(channel) ? Math.abs(samples.percent(s) - MIDDLE) : 0.0;
      count += beyond > FARTHEST ? 1 : 0;
      if (beyond > FARTHEST && beyond > Math.abs(farthest - MIDDLE)) {
        farthest = samples.percent(s);
        at = Samples.seconds(s.askedNanos());
      }
    }
    return count == 0
        ? Optional.empty()
        : Optional.of(
            (count == 1 ? "One reading" : count + " readings")
                + " of the "
                + channel
                + " can't be true: beyond "
                + Numbers.plain(MIDDLE - FARTHEST)
                + " to "
                + Numbers.plain(MIDDLE + FARTHEST)
                + " % of travel, the farthest "
                + Numbers.fixed(farthest, 1)
                + " % at "
                + Numbers.fixed(at, 1)
                + " s. Look at that instrument's connection and scale.");
  }

  /** What the rest rule can't see: where it ends is not known. */
  private Optional<String> creeps(Truth truth) {
    double most = 0.0;
    for (Direction direction : Direction.values()) {
      most = Math.max(most, judged.budget(truth).creepPercent(direction));
    }
    return most < WORTH_SAYING_CREEP
        ? Optional.empty()
        : Optional.of(
            (truth == Truth.STEM ? "The stem" : "The position")
                + " may creep on by up to "
                + Numbers.significant(most, 2)
                + " % after the reading: its rests are too short, or too noisy, to tell. U allows"
                + " for that. A longer rest_window_s in the unit type shows where it ends.");
  }

  /** Simple acceptance is for an accuracy ratio of 4 or more (common practice, no source). */
  private Optional<String> simpleAcceptance() {
    return judgements.stream()
        .filter(j -> j.limit().isPresent() && j.limit().get().rule().simpleAcceptance())
        .filter(j -> ratio(j) < unit.practice().ratioWarn())
        .findFirst()
        .map(
            j ->
                "Simple acceptance was agreed for "
                    + j.measure().kind().title()
                    + ", but its accuracy ratio is "
                    + Numbers.fixed(ratio(j), 1)
                    + ", below "
                    + Numbers.plain(unit.practice().ratioWarn())
                    + ": no result by that rule; agree a guard band, or use better instruments.");
  }

  private static double ratio(Judgement judgement) {
    return judgement.accuracyRatio().orElse(Double.POSITIVE_INFINITY);
  }
}
