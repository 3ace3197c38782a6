package org.benchstroke.imported;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.SplittableRandom;
import org.benchstroke.Counted;
import org.benchstroke.core.toml.FileMistakes;
import org.benchstroke.judge.Judgement;
import org.benchstroke.judge.Measure;
import org.benchstroke.unit.MeasureKind;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * Whole files of units that arrive and then creep on exponentially, whose truth is where that ends.
 * Neither the time constant nor the size is chosen so that it can be seen within a rest.
 */
class CreepingTraceCoverageTest {
  private static final int FILES = Counted.of(160);
  private static final double PERIOD = 0.1;
  private static final double SPEED = 100.0 / 15.0;
  private static final double[] POINTS = {0, 25, 50, 75, 100, 75, 50, 25, 0};

  /** Beyond this a statement is of no use: four times what such a creep is at the most. */
  private static final double ABSURD = 2.0;

  @TempDir Path folder;

  /** One unit and the instruments that read it. */
  private static final class Unit {
    final SplittableRandom r;
    final double timeConstant;
    final double noise;
    final double source;
    final double meter;
    final Map<String, Double> ends = new HashMap<>();
    double amplitude;

    Unit(long seed, double least, double most) {
      r = new SplittableRandom(seed);
      timeConstant = 2.0 * Math.pow(30.0, r.nextDouble());
      amplitude = most > 0.0 ? r.nextDouble(least, most) : 0.0;
      noise = 0.002 * Math.pow(5.0, r.nextDouble());
      source = r.nextDouble(-1.0, 1.0);
      meter = r.nextDouble(-1.0, 1.0);
    }

    /** What an accuracy of ±(0.02 % of reading + 0.002 mA) may be, % of travel. */
    private static double bound(double percent) {
      return 6.25 * (0.0002 * (4.0 + percent / 6.25) + 0.002);
    }

    List<String> lines() {
      List<String> lines = new ArrayList<>(List.of("time [s],setpoint [%],position [%]"));
      double at = 0.0;
      double before = 0.0;
      for (double point : POINTS) {
        int side = point > before ? 1 : -1;
        double asked = point + source * bound(point);
        double end = lines.size() == 1 ? 0.0 : asked - 0.05 * side;
        double arrives = lines.size() == 1 ? 0.0 : end - side * amplitude;
        ends.put(String.format(Locale.ROOT, "%.0f %% %s", point, side > 0 ? "up" : "down"), end);
        double moving = Math.abs(arrives - at) / SPEED;
        double stays = moving + r.nextDouble(5.0, 12.0);
        double from = at;
        for (int i = 0; i < stays / PERIOD; i++) {
          double t = i * PERIOD;
          at =
              t < moving
                  ? from + side * SPEED * t
                  : end + (arrives - end) * Math.exp(-(t - moving) / timeConstant);
          double read = at + meter * bound(at) + noise * r.nextGaussian();
          lines.add(
              String.format(
                  Locale.ROOT, "%.3f,%.3f,%.4f", (lines.size() - 1) * PERIOD, point, read));
        }
        before = point;
      }
      return lines;
    }

    double truth(Measure measure) {
      String place = place(measure);
      return ends.get(place) - Double.parseDouble(place.substring(0, place.indexOf(' ')));
    }
  }

  private static String place(Measure measure) {
    return measure.kind() == MeasureKind.ZERO_ERROR ? "0 % down" : measure.place().words();
  }

  private List<Judgement> judged(Unit unit) throws FileMistakes {
    return new Foreign(folder)
        .logged().travel("0, 25, 50, 75, 100", 1).judge(unit.lines()).judgements().stream()
            .filter(
                j ->
                    j.measure().kind() == MeasureKind.TRAVEL_ERROR
                        || j.measure().kind() == MeasureKind.ZERO_ERROR)
            .filter(
                j -> j.measure().value().isPresent() && unit.ends.containsKey(place(j.measure())))
            .toList();
  }

  @Test
  void uHoldsWhereTheCreepEnds() throws FileMistakes {
    Map<MeasureKind, int[]> counts = new HashMap<>();
    double widest = 0.0;
    for (int seed = 0; seed < FILES; seed++) {
      Unit unit = new Unit(1_000_003L * seed + 11, 0.05, 0.5);
      for (Judgement j : judged(unit)) {
        double half = j.measure().budget().orElseThrow().expand().half();
        double off = Math.abs(j.measure().value().orElseThrow() - unit.truth(j.measure()));
        int[] count = counts.computeIfAbsent(j.measure().kind(), k -> new int[2]);
        count[0] += off <= half ? 1 : 0;
        count[1]++;
        widest = Math.max(widest, half);
      }
    }
    assertThat(counts).hasSize(2);
    assertThat(widest).isLessThan(ABSURD);
    counts.forEach(
        (kind, c) ->
            assertThat(100.0 * c[0] / c[1])
                .as("%s, of %s", kind, c[1])
                .isGreaterThanOrEqualTo(93.0 - Counted.chancePercent(93.0, c[1])));
  }

  /** Who does not creep keeps a U that half of a usual limit leaves room for. */
  @Test
  void soundUnitsKeepTheirPass() throws FileMistakes {
    int passed = 0;
    int all = 0;
    for (int seed = 0; seed < FILES; seed++) {
      for (Judgement j : judged(new Unit(1_000_003L * seed + 11, 0.0, 0.0))) {
        double half = j.measure().budget().orElseThrow().expand().half();
        passed += Math.abs(j.measure().value().orElseThrow()) + half <= 0.5 ? 1 : 0;
        all++;
      }
    }
    assertThat(100.0 * passed / all).as("of %s", all).isGreaterThan(97.0);
  }
}
