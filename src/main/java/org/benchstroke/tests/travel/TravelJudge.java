package org.benchstroke.tests.travel;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.benchstroke.core.analysis.RestReading;
import org.benchstroke.io.instrument.Role;
import org.benchstroke.judge.Chapter;
import org.benchstroke.judge.Finding;
import org.benchstroke.judge.JudgedBench;
import org.benchstroke.judge.Measure;
import org.benchstroke.judge.TestJudge;
import org.benchstroke.judge.TestResult;
import org.benchstroke.judge.Truth;
import org.benchstroke.record.Event;
import org.benchstroke.unit.MeasureKind;

/** Judges a travel error test: by the unit's feedback, and by the stem where it was read. */
final class TravelJudge implements TestJudge {
  private static final String BY_EYE = "stem read by eye and typed in, one reading at each point";

  private static final String POSITION_BY_EYE =
      "position read from a display and typed in, one reading at each point";

  private final JudgedBench judged;
  private final TravelTest travel;

  TravelJudge(JudgedBench judged, TravelError spec, Optional<Chapter> attempt) {
    this.judged = judged;
    this.travel = travel(judged, spec, attempt);
  }

  @Override
  public Map<Truth, List<List<Double>>> alike() {
    Map<Truth, List<List<Double>>> alike = new EnumMap<>(Truth.class);
    travel.all().forEach(taken -> alike.put(taken.truth(), taken.alike()));
    return alike;
  }

  @Override
  public TestResult result() {
    Map<Truth, List<RestReading>> rests = new EnumMap<>(Truth.class);
    travel.all().forEach(taken -> rests.put(taken.truth(), taken.readings()));
    return TestResult.measures(measures()).at(rests).found(findings());
  }

  @Override
  public List<Measure> related(List<Measure> measures) {
    return HysteresisMeasure.all(judged, travel, measures);
  }

  private List<Finding> findings() {
    List<Finding> findings =
        new ArrayList<>(new TravelFindings(judged.unit(), judged.samples(), travel).all());
    travel.all().stream()
        .flatMap(taken -> UnaskedRests.finding(judged, taken).stream())
        .map(sentence -> new Finding(Finding.Kind.NOTE, sentence))
        .forEach(findings::add);
    return findings;
  }

  private static TravelTest travel(
      JudgedBench judged, TravelError spec, Optional<Chapter> attempt) {
    RecordReadings readings = new RecordReadings(judged, spec, attempt);
    boolean stemRead =
        judged.record().events(Event.Sampled.class).anyMatch(s -> s.channel().equals("stem"));
    boolean stem = stemRead && judged.bench().playing(Role.ANGLE_REFERENCE).isPresent();
    TravelReadings feedback =
        judged.byEye(Role.POSITION_TRANSMITTER) ? readings.feedbackByEye() : readings.feedback();
    return new TravelTest(
        attempt, feedback, stem ? Optional.of(stem(judged, readings)) : Optional.empty());
  }

  private static TravelReadings stem(JudgedBench judged, RecordReadings readings) {
    return judged.byEye(Role.ANGLE_REFERENCE) ? readings.stemByEye() : readings.stem();
  }

  private boolean byEye(Role role) {
    return judged.byEye(role);
  }

  private static String note(boolean oneBox, String byEye) {
    return Stream.of(oneBox ? JudgedBench.ONE_BOX : "", byEye)
        .filter(part -> !part.isEmpty())
        .collect(Collectors.joining("; "));
  }

  private List<Measure> measures() {
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

  private List<Measure> both(TravelReadings feedback, TravelReadings stem) {
    List<Measure> measures = new StemMeasures(judged, feedback, stem).all();
    List<Measure> held = UnaskedRests.heldAgainst(judged, feedback, measures);
    return UnaskedRests.heldAgainst(judged, stem, held);
  }

  private List<Measure> measures(TravelReadings taken, String note) {
    boolean byMeans = judged.unit().limit(MeasureKind.HYSTERESIS_PLUS_DEAD_BAND_MEANS).isPresent();
    List<Measure> measures =
        new TravelMeasures(taken, judged.budget(taken.truth()), note, byMeans).all();
    return UnaskedRests.heldAgainst(judged, taken, measures);
  }
}
