package org.benchstroke.tests.switches;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.benchstroke.core.analysis.SwitchCrossing;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.core.uncertainty.Budget;
import org.benchstroke.core.uncertainty.Component;
import org.benchstroke.io.instrument.LimitSwitch;
import org.benchstroke.judge.AsOrdered;
import org.benchstroke.judge.AsOrdered.Subject;
import org.benchstroke.judge.Chapter;
import org.benchstroke.judge.Finding;
import org.benchstroke.judge.JudgedBench;
import org.benchstroke.judge.Lines;
import org.benchstroke.judge.Location;
import org.benchstroke.judge.Measure;
import org.benchstroke.judge.Measures;
import org.benchstroke.judge.PositionBudget;
import org.benchstroke.judge.TestJudge;
import org.benchstroke.judge.TestResult;
import org.benchstroke.judge.Truth;
import org.benchstroke.judge.Word;
import org.benchstroke.tests.switches.Switches.End;
import org.benchstroke.unit.MeasureKind;

/** Where each switch trips and resets, and whether the auxiliary comes before the end switch. */
final class SwitchMeasures implements TestJudge {
  private static final String METHOD = "switches/2";
  private static final String ORDERED = "auxiliary before the end switch";

  private final JudgedBench judged;
  private final Switches spec;
  private final Truth truth;
  private final PositionBudget budget;
  private final Optional<SwitchPassages> passages;

  SwitchMeasures(JudgedBench judged, Switches spec, Optional<Chapter> attempt) {
    Lines lines = attempt.map(Chapter::lines).orElse(Lines.NONE);
    this.judged = judged;
    this.spec = spec;
    this.truth = judged.samples().stem(lines).isEmpty() ? Truth.FEEDBACK : Truth.STEM;
    this.budget = judged.budget(truth);
    this.passages = attempt.map(a -> new SwitchPassages(judged, truth, a));
  }

  @Override
  public TestResult result() {
    List<Measure> measures = new ArrayList<>();
    List<AsOrdered> orders = new ArrayList<>();
    for (End end : End.values()) {
      Map<LimitSwitch, SwitchPassages.Found> trips = new EnumMap<>(LimitSwitch.class);
      for (LimitSwitch which : List.of(end.outer(), end.auxiliary())) {
        if (judged.unit().switches().containsKey(which)) {
          trips.put(which, found(end, which, true));
          measures.add(error(which, trips.get(which)));
          measures.add(differential(end, which, trips.get(which)));
        }
      }
      if (trips.size() == 2) {
        Measure lead = lead(end, trips.get(end.outer()), trips.get(end.auxiliary()));
        measures.add(lead);
        orders.add(order(end, lead, trips));
      }
    }
    if (measures.isEmpty()) {
      measures.add(
          none(MeasureKind.SWITCH_ERROR, Location.whole(), "the unit type states no switches_deg"));
    }
    return TestResult.measures(measures).andOrders(orders).found(findings(orders));
  }

  private SwitchPassages.Found found(End end, LimitSwitch which, boolean towards) {
    Optional<String> lacking = budget.instruments().meterLacking();
    if (passages.isEmpty()) {
      return SwitchPassages.Found.none("the test was not completed");
    }
    return lacking.isPresent()
        ? SwitchPassages.Found.none(lacking.get())
        : passages.get().of(end, which, towards, spec.cycles());
  }

  private Measure error(LimitSwitch which, SwitchPassages.Found trip) {
    MeasureKind kind = MeasureKind.SWITCH_ERROR;
    if (trip.at().isEmpty()) {
      return none(kind, new Location.OfSwitch(which), trip.why());
    }
    double stated = judged.unit().switches().get(which).degrees();
    double angle = degrees(trip.at().get().middle());
    String note = "trips at " + Numbers.fixed(angle, 2) + "°, set to " + Numbers.plain(stated);
    return value(
        kind, new Location.OfSwitch(which), angle - stated, reading(trip, "trip", 1.0), note + "°");
  }

  private Measure differential(End end, LimitSwitch which, SwitchPassages.Found trip) {
    MeasureKind kind = MeasureKind.SWITCH_DIFFERENTIAL;
    SwitchPassages.Found reset = found(end, which, false);
    if (trip.at().isEmpty() || reset.at().isEmpty()) {
      return none(
          kind, new Location.OfSwitch(which), trip.at().isEmpty() ? trip.why() : reset.why());
    }
    double inwards = end == End.CLOSED ? 1.0 : -1.0;
    double angle = degrees(reset.at().get().middle());
    List<Component> components = new ArrayList<>(reading(trip, "trip", -1.0));
    components.addAll(reading(reset, "reset", 1.0));
    String note = "resets at " + Numbers.fixed(angle, 2) + "°";
    double value = inwards * (angle - degrees(trip.at().get().middle()));
    return value(kind, new Location.OfSwitch(which), value, components, note);
  }

  private Measure lead(End end, SwitchPassages.Found outer, SwitchPassages.Found auxiliary) {
    MeasureKind kind = MeasureKind.AUXILIARY_LEAD;
    if (outer.at().isEmpty() || auxiliary.at().isEmpty()) {
      String which = outer.at().isEmpty() ? end.outer().key() : end.auxiliary().key();
      String why = outer.at().isEmpty() ? outer.why() : auxiliary.why();
      return none(kind, new Location.EndSwitches(end == End.OPEN), which + ": " + why);
    }
    double inwards = end == End.CLOSED ? 1.0 : -1.0;
    List<Component> components = new ArrayList<>(reading(outer, "end switch", -1.0));
    components.addAll(reading(auxiliary, "auxiliary", 1.0));
    double between = auxiliary.at().get().middle() - outer.at().get().middle();
    return value(
        kind,
        new Location.EndSwitches(end == End.OPEN),
        inwards * degrees(between),
        components,
        "");
  }

  /**
   * What makes an angle uncertain; both of a difference count in full. The noise is in the readings
   * around the change, whose extremes bound it.
   */
  private List<Component> reading(SwitchPassages.Found found, String what, double sign) {
    SwitchCrossing at = found.at().orElseThrow();
    double perPercent = sign * degrees(1.0);
    List<Component> components = new ArrayList<>();
    components.add(
        Component.rectangular(what + ": readings around the change", at.half(), perPercent));
    for (Component c : budget.instruments().meterAlone(at.middle())) {
      components.add(c.named(what + ": " + c.source()).times(perPercent));
    }
    return components;
  }

  private AsOrdered order(End end, Measure lead, Map<LimitSwitch, SwitchPassages.Found> trips) {
    boolean ended = trips.get(end.outer()).at().isPresent();
    boolean never = trips.get(end.auxiliary()).at().isEmpty();
    if (lead.value().isEmpty()) {
      // The end switch cuts the motor: what has not tripped by then trails it.
      return ended && never && passages.orElseThrow().neverMade(end, spec.cycles())
          ? result(end, "auxiliary after end: open when the end switch tripped", Word.FAIL)
          : result(end, lead.note(), Word.NO_RESULT);
    }
    double value = lead.value().get();
    double half = lead.budget().map(Budget::expand).orElseThrow().half();
    String by = Numbers.fixed(Math.abs(value), 1) + "°";
    if (Math.abs(value) <= half) {
      return result(end, "can't be told apart: " + by, Word.NO_RESULT);
    }
    return value > 0.0
        ? result(end, "auxiliary " + by + " before end", Word.PASS)
        : result(end, "auxiliary after end, by " + by, Word.FAIL);
  }

  private static AsOrdered result(End end, String found, Word word) {
    return new AsOrdered(Subject.SWITCHES, end.words(), ORDERED, found, word, METHOD);
  }

  private static List<Finding> findings(List<AsOrdered> orders) {
    return orders.stream()
        .filter(o -> o.word() == Word.FAIL)
        .map(o -> "Wrong order of " + o.what() + ": " + o.found() + ".")
        .map(sentence -> new Finding(Finding.Kind.NOTE, sentence))
        .toList();
  }

  private double degrees(double percent) {
    return percent / 100.0 * judged.unit().travelDegrees();
  }

  private Measure value(
      MeasureKind kind, Location place, double value, List<Component> components, String note) {
    return Measures.value(kind, place, truth, value, components, METHOD, note);
  }

  private Measure none(MeasureKind kind, Location place, String reason) {
    return Measures.none(kind, place, truth, METHOD, reason);
  }
}
