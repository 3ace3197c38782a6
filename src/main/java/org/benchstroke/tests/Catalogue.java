package org.benchstroke.tests;

import java.util.List;
import org.benchstroke.imported.CsvImport;
import org.benchstroke.judge.Relation;
import org.benchstroke.judge.RunJudge;
import org.benchstroke.judge.TestKind;
import org.benchstroke.tests.byhand.ByHand;
import org.benchstroke.tests.duty.DutyRun;
import org.benchstroke.tests.endurance.Endurance;
import org.benchstroke.tests.exercise.Exercise;
import org.benchstroke.tests.holds.Holds;
import org.benchstroke.tests.loss.SignalLoss;
import org.benchstroke.tests.partial.PartialStroke;
import org.benchstroke.tests.power.PowerLoss;
import org.benchstroke.tests.ramp.SlowRamp;
import org.benchstroke.tests.stairs.DeadBand;
import org.benchstroke.tests.stairs.Resolution;
import org.benchstroke.tests.stairs.StairRelation;
import org.benchstroke.tests.steps.Steps;
import org.benchstroke.tests.stroke.StrokeTime;
import org.benchstroke.tests.supply.SupplyVoltage;
import org.benchstroke.tests.switches.Switches;
import org.benchstroke.tests.travel.TravelError;

/** All tests that there are: a new one has its folder and its line here. */
public final class Catalogue {
  /** The kinds of test, in the order in which a message lists them. */
  static final List<TestKind<?>> KINDS =
      List.of(
          Exercise.KIND,
          SupplyVoltage.KIND,
          StrokeTime.KIND,
          Switches.KIND,
          TravelError.KIND,
          DeadBand.KIND,
          Resolution.KIND,
          Steps.KIND,
          PartialStroke.KIND,
          SlowRamp.KIND,
          Holds.KIND,
          SignalLoss.KIND,
          PowerLoss.KIND,
          DutyRun.KIND,
          Endurance.KIND,
          ByHand.KIND);

  /** Those that files of others can show, in the order in which they are looked for. */
  private static final CsvImport IMPORTS =
      new CsvImport(
          List.of(
              Exercise.IN_FILE,
              StrokeTime.IN_FILE,
              TravelError.IN_FILE,
              DeadBand.IN_FILE,
              Resolution.IN_FILE,
              Steps.IN_FILE,
              SlowRamp.IN_FILE,
              Holds.IN_FILE,
              SignalLoss.IN_FILE,
              Endurance.IN_FILE));

  private static final List<Relation> RELATIONS = List.of(new StairRelation());

  private static final RunJudge JUDGE = new RunJudge(KINDS, RELATIONS);

  private Catalogue() {}

  /** The names of all tests, in the order in which a message lists them. */
  public static List<String> names() {
    return KINDS.stream().<String>map(TestKind::name).toList();
  }

  /** The judge of records of all these tests. */
  public static RunJudge judge() {
    return JUDGE;
  }

  /** What makes records of files of others that show some of these tests. */
  public static CsvImport imports() {
    return IMPORTS;
  }
}
