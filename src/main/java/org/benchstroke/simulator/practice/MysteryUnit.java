package org.benchstroke.simulator.practice;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.benchstroke.aids.diagnosis.Cause;
import org.benchstroke.aids.diagnosis.Diagnosis;
import org.benchstroke.aids.diagnosis.RankedCause;
import org.benchstroke.core.model.Noise;
import org.benchstroke.core.toml.FileMistakes;
import org.benchstroke.judge.JudgedRun;
import org.benchstroke.record.RunRecord;

/**
 * A simulated unit with something wrong, or nothing, for a trainee to find out. Each test begins
 * with the unit as it first stood on the bench. The same number is always the same unit. One
 * thread.
 */
public final class MysteryUnit {
  private static final int WHOLE_SCORE = 100;
  private static final double POINTS_A_MINUTE = 2.0;
  private static final int LEAST_IF_RIGHT = 50;
  private static final int LOOK_ALIKE = 30;

  /** One of so many is sound: that has to be recognised, too. */
  private static final int ONE_SOUND_IN = 8;

  private final DrawnUnits units;
  private final Cause hidden;
  private final Severity severity;
  private final long seed;
  private double benchSeconds;

  /**
   * What came of it.
   *
   * @param right whether the cause was named
   * @param points 0 to 100
   * @param why how they were counted, in a sentence
   */
  public record Score(boolean right, int points, String why) {}

  private MysteryUnit(DrawnUnits units, Cause hidden, Severity severity, long seed) {
    this.units = units;
    this.hidden = hidden;
    this.severity = severity;
    this.seed = seed;
  }

  /**
   * Draws one.
   *
   * @param demoData the folder of the demo data
   * @param number which one
   * @throws FileMistakes if a file of the demo data can't be read
   */
  public static MysteryUnit of(Path demoData, long number) throws FileMistakes {
    Noise noise = new Noise(number * 6_364_136_223_846_793_005L + 1L);
    List<Cause> faults = new ArrayList<>(FaultDraw.causes());
    faults.remove(Cause.HEALTHY);
    boolean sound = pick(noise, ONE_SOUND_IN) == 0;
    Cause fault = faults.get(pick(noise, faults.size()));
    Severity severity = pick(noise, 2) == 0 ? Severity.CLEAR : Severity.MODERATE;
    return new MysteryUnit(
        DrawnUnits.of(demoData, "fault-finding"), sound ? Cause.HEALTHY : fault, severity, number);
  }

  private static int pick(Noise noise, int many) {
    return Math.min(many - 1, (int) ((noise.symmetric() + 1.0) / 2.0 * many));
  }

  /** Runs a test; its bench time counts. */
  public JudgedRun run(PracticeTest test) {
    RunRecord record;
    try {
      record = units.withTests(test.table()).run(hidden, severity, seed).record();
    } catch (FileMistakes e) {
      throw new IllegalStateException(e.getMessage(), e);
    }
    benchSeconds += record.entries().get(record.entries().size() - 1).nanos() / 1e9;
    return DrawnUnits.judge(record);
  }

  /** The bench time of all tests so far, s. */
  public double benchSeconds() {
    return benchSeconds;
  }

  /** What is hidden. */
  public Cause hidden() {
    return hidden;
  }

  /** How far it goes, in words; nothing for a sound unit, or a fault without degrees. */
  public String degree() {
    return FaultDraw.graded(hidden) ? severity.words() : "";
  }

  /** The simulation file of the unit, to be run again by {@code simulate}. */
  public String file(String unitType) {
    return FaultDraw.text(List.of(Fault.of(hidden, severity, seed)), seed, unitType);
  }

  /** What the program itself makes of the unit by the procedure <em>fault finding</em>. */
  public Diagnosis explained() {
    return Diagnosis.of(units.judge(hidden, severity, seed));
  }

  /** Counts the points of an answer. */
  public Score score(Cause named) {
    double minutes = benchSeconds / 60.0;
    if (FaultDraw.sameUnit(named, hidden)) {
      int points =
          (int) Math.max(LEAST_IF_RIGHT, Math.round(WHOLE_SCORE - POINTS_A_MINUTE * minutes));
      return new Score(true, points, "right; two points off for each minute of bench time");
    }
    List<Cause> two = explained().ranked().subList(0, 2).stream().map(RankedCause::cause).toList();
    return two.contains(named)
        ? new Score(false, LOOK_ALIKE, "a look-alike, and close")
        : new Score(false, 0, "not what it was");
  }
}
