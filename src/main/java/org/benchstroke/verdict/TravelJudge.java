package org.benchstroke.verdict;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.benchstroke.bench.InstrumentSpec;
import org.benchstroke.instrument.Role;
import org.benchstroke.procedure.TravelError;
import org.benchstroke.record.Event;

/** Judges a travel error test: by the unit's feedback, and by the stem where it was read. */
final class TravelJudge {
  static final String ONE_BOX = "source and readback are one box, which hides its own error";

  static final String BY_EYE = "stem read by eye and typed in, one reading at each point";

  private final JudgedBench judged;
  private final TravelError spec;
  private final Optional<Attempt> attempt;

  TravelJudge(JudgedBench judged, TravelError spec, Optional<Attempt> attempt) {
    this.judged = judged;
    this.spec = spec;
    this.attempt = attempt;
  }

  TestResult result() {
    TravelTest travel = travel();
    return new TestResult(measures(travel), List.of(), Optional.of(travel));
  }

  private TravelTest travel() {
    RecordReadings readings = new RecordReadings(judged.unit(), judged.samples(), spec, attempt);
    boolean stemRead =
        judged.record().events(Event.Sampled.class).anyMatch(s -> s.channel().equals("stem"));
    boolean stem = stemRead && judged.bench().playing(Role.ANGLE_REFERENCE).isPresent();
    return new TravelTest(
        attempt, readings.feedback(), stem ? Optional.of(stem(readings)) : Optional.empty());
  }

  private Taken stem(RecordReadings readings) {
    return stemByEye() ? readings.stemByEye() : readings.stem();
  }

  private boolean stemByEye() {
    return judged.bench().playing(Role.ANGLE_REFERENCE).map(InstrumentSpec::typedIn).orElse(false);
  }

  private List<Measure> measures(TravelTest travel) {
    boolean metered = judged.bench().playing(Role.LOOP_METER).isPresent();
    boolean oneBox = metered && judged.bench().sourceReadsItself();
    String note = oneBox ? ONE_BOX : "";
    String stemNote = stemByEye() ? (oneBox ? ONE_BOX + "; " : "") + BY_EYE : note;
    List<Measure> measures = new ArrayList<>();
    measures.addAll(
        new TravelMeasures(travel.feedback(), judged.budget(Truth.FEEDBACK), note).all());
    travel
        .stem()
        .map(taken -> new TravelMeasures(taken, judged.budget(Truth.STEM), stemNote))
        .ifPresent(stem -> measures.addAll(stem.all()));
    return measures;
  }
}
