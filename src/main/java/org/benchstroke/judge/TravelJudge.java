package org.benchstroke.judge;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.benchstroke.io.instrument.Role;
import org.benchstroke.procedure.TravelError;
import org.benchstroke.record.Event;
import org.benchstroke.unit.MeasureKind;

/** Judges a travel error test: by the unit's feedback, and by the stem where it was read. */
final class TravelJudge {
  static final String ONE_BOX = "source and readback are one box, which hides its own error";

  static final String BY_EYE = "stem read by eye and typed in, one reading at each point";

  static final String POSITION_BY_EYE =
      "position read from a display and typed in, one reading at each point";

  private final JudgedBench judged;
  private final TravelError spec;
  private final Optional<Attempt> attempt;

  TravelJudge(JudgedBench judged, TravelError spec, Optional<Attempt> attempt) {
    this.judged = judged;
    this.spec = spec;
    this.attempt = attempt;
  }

  TestResult result() {
    TravelTest travel = travel(judged, spec, attempt);
    List<String> notes =
        Stream.concat(Stream.of(travel.feedback()), travel.stem().stream())
            .flatMap(taken -> OtherRests.finding(judged, taken).stream())
            .toList();
    return new TestResult(measures(travel), List.of(), Optional.of(travel), notes);
  }

  /** The readings of a test. */
  static TravelTest travel(JudgedBench judged, TravelError spec, Optional<Attempt> attempt) {
    RecordReadings readings = new RecordReadings(judged, spec, attempt);
    boolean stemRead =
        judged.record().events(Event.Sampled.class).anyMatch(s -> s.channel().equals("stem"));
    boolean stem = stemRead && judged.bench().playing(Role.ANGLE_REFERENCE).isPresent();
    Taken feedback =
        judged.byEye(Role.POSITION_TRANSMITTER) ? readings.feedbackByEye() : readings.feedback();
    return new TravelTest(
        attempt, feedback, stem ? Optional.of(stem(judged, readings)) : Optional.empty());
  }

  private static Taken stem(JudgedBench judged, RecordReadings readings) {
    return judged.byEye(Role.ANGLE_REFERENCE) ? readings.stemByEye() : readings.stem();
  }

  private boolean byEye(Role role) {
    return judged.byEye(role);
  }

  private static String note(boolean oneBox, String byEye) {
    return Stream.of(oneBox ? ONE_BOX : "", byEye)
        .filter(part -> !part.isEmpty())
        .collect(Collectors.joining("; "));
  }

  private List<Measure> measures(TravelTest travel) {
    boolean metered = judged.bench().playing(Role.LOOP_METER).isPresent();
    boolean oneBox = metered && judged.bench().sourceReadsItself();
    String note = note(oneBox, byEye(Role.POSITION_TRANSMITTER) ? POSITION_BY_EYE : "");
    String stemNote = note(oneBox, byEye(Role.ANGLE_REFERENCE) ? BY_EYE : "");
    List<Measure> measures = new ArrayList<>();
    measures.addAll(measures(travel.feedback(), note));
    travel.stem().ifPresent(stem -> measures.addAll(measures(stem, stemNote)));
    travel.stem().ifPresent(stem -> measures.addAll(both(travel.feedback(), stem)));
    return measures;
  }

  private List<Measure> both(Taken feedback, Taken stem) {
    List<Measure> measures = new StemMeasures(judged, feedback, stem).all();
    List<Measure> held = OtherRests.heldAgainst(judged, feedback, measures);
    return OtherRests.heldAgainst(judged, stem, held);
  }

  private List<Measure> measures(Taken taken, String note) {
    boolean byMeans = judged.unit().limit(MeasureKind.HYSTERESIS_PLUS_DEAD_BAND_MEANS).isPresent();
    List<Measure> measures =
        new TravelMeasures(taken, judged.budget(taken.truth()), note, byMeans).all();
    return OtherRests.heldAgainst(judged, taken, measures);
  }
}
