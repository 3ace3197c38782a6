package org.benchstroke.imported;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Locale;
import java.util.Random;
import org.benchstroke.Counted;
import org.benchstroke.core.toml.FileMistakes;
import org.benchstroke.judge.JudgedRun;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * Files by seed: a sound one, with one clear fault at a random place, and other rows left out or
 * mangled at random. Whatever is left: as long as the fault stands there, nothing passes.
 */
class MangledFilesTest {
  private static final int READINGS = Counted.of(2000);
  private static final int TRACES = Counted.of(120);

  @TempDir Path folder;

  /** One written reading. */
  private record Row(double setpoint, String direction, int cycle, double reading) {
    String text() {
      return String.format(
          Locale.ROOT, "%s,%s,%d,%.1f", plain(setpoint), direction, cycle, reading);
    }

    private static String plain(double value) {
      return value == Math.rint(value) ? Long.toString((long) value) : Double.toString(value);
    }
  }

  private static final List<List<Double>> POINTS =
      List.of(
          List.of(0.0, 50.0, 100.0),
          List.of(0.0, 25.0, 50.0, 75.0, 100.0),
          List.of(10.0, 30.0, 50.0, 70.0, 90.0),
          List.of(0.0, 10.0, 20.0, 30.0, 40.0, 50.0, 60.0, 70.0, 80.0, 90.0, 100.0));

  private static List<Row> sound(Random random, List<Double> points, int cycles) {
    List<Row> rows = new ArrayList<>();
    for (int cycle = 1; cycle <= cycles; cycle++) {
      for (int i = 1; i < points.size(); i++) {
        rows.add(new Row(points.get(i), "up", cycle, points.get(i) - noise(random)));
      }
      for (int i = points.size() - 2; i >= 0; i--) {
        rows.add(new Row(points.get(i), "down", cycle, points.get(i) + noise(random)));
      }
    }
    return rows;
  }

  private static double noise(Random random) {
    return 0.1 * random.nextInt(3);
  }

  private static String points(List<Double> points) {
    return points.toString().replaceAll("[\\[\\]]", "");
  }

  private static String text(List<Row> rows) {
    StringBuilder text = new StringBuilder("setpoint [%],direction,cycle,reading [%]\n");
    rows.forEach(row -> text.append(row.text()).append('\n'));
    return text.toString();
  }

  @Test
  void writtenReadings() {
    int judged = 0;
    for (long seed = 0; seed < READINGS; seed++) {
      Random random = new Random(seed);
      List<Double> points = POINTS.get(random.nextInt(POINTS.size()));
      int cycles = 1 + random.nextInt(3);
      List<Row> rows = sound(random, points, cycles);
      Foreign foreign = new Foreign(folder);
      if (random.nextInt(4) > 0) {
        List<Double> ordered = random.nextBoolean() ? points : POINTS.get(random.nextInt(4));
        foreign.travel(points(ordered), 1 + random.nextInt(cycles));
      }
      if (seed % 50 == 0) {
        Foreign whole = new Foreign(folder).travel(points(points), cycles);
        assertThat(verdict(whole, text(rows))).as("seed " + seed).isEqualTo("PASSED");
      }
      int at = random.nextInt(rows.size());
      Row off = rows.get(at);
      double by = (random.nextBoolean() ? 1.0 : -1.0) * (2.0 + 10.0 * random.nextDouble());
      Row fault = new Row(off.setpoint(), off.direction(), off.cycle(), off.reading() + by);
      rows.set(at, fault);
      mangle(random, rows, fault);
      String verdict = verdict(foreign, text(rows));
      assertThat(verdict).as("seed " + seed + "\n" + text(rows)).isNotEqualTo("PASSED");
      judged += verdict.equals("refused") ? 0 : 1;
    }
    // Refusing everything would be too easy.
    assertThat(judged).isGreaterThan(READINGS / 5);
  }

  /** Leaves the fault's own row alone. */
  private static void mangle(Random random, List<Row> rows, Row fault) {
    int times = random.nextInt(rows.size());
    for (int i = 0; i < times && rows.size() > 1; i++) {
      int at = random.nextInt(rows.size());
      Row row = rows.get(at);
      if (row.equals(fault)) {
        continue;
      }
      switch (random.nextInt(6)) {
        case 0, 1, 2 -> rows.remove(at);
        case 3 -> Collections.swap(rows, at, random.nextInt(rows.size()));
        case 4 -> rows.add(random.nextInt(rows.size()), row);
        default -> {
          String other = row.direction().equals("up") ? "down" : "up";
          rows.set(at, new Row(row.setpoint(), other, row.cycle(), row.reading()));
        }
      }
    }
  }

  private static String verdict(Foreign foreign, String text) {
    try {
      JudgedRun run = foreign.judge(text);
      return run.passed() ? "PASSED" : run.verdict().text();
    } catch (FileMistakes e) {
      assertThat(e.mistakes()).hasSize(1);
      return "refused";
    }
  }

  @Test
  void traces() {
    int judged = 0;
    for (long seed = 0; seed < TRACES; seed++) {
      Random random = new Random(seed);
      double[] points = {0.0, 25.0, 50.0, 75.0, 100.0};
      String ordered = "0, 25, 50, 75, 100";
      if (seed % 25 == 0) {
        MadeUpTrace whole = new MadeUpTrace(seed).stroke(6.0).to(0.0).cycle(points);
        String text = String.join("\n", whole.lines()) + "\n";
        assertThat(verdict(fast().travel(ordered, 1), text)).as("seed " + seed).isEqualTo("PASSED");
      }
      MadeUpTrace trace = new MadeUpTrace(seed).stroke(6.0);
      int from = faulty(random, trace);
      List<String> lines = trace.lines();
      String kept = lines.get(from);
      mangle(random, lines, kept);
      Foreign foreign = fast();
      if (random.nextInt(4) > 0) {
        foreign.travel(random.nextBoolean() ? ordered : "0, 50, 100", 1);
      }
      String verdict = verdict(foreign, String.join("\n", lines) + "\n");
      assertThat(verdict).as("seed " + seed).isNotEqualTo("PASSED");
      judged += verdict.equals("refused") ? 0 : 1;
    }
    assertThat(judged).isGreaterThan(TRACES / 2);
  }

  private Foreign fast() {
    return new Foreign(folder).logged().unit("stroke_time_s = 15.0", "stroke_time_s = 6.0");
  }

  /** One cycle and some more moves, one of them with a fault; gives the row in its middle. */
  private static int faulty(Random random, MadeUpTrace trace) {
    List<Double> moves =
        new ArrayList<>(List.of(0.0, 25.0, 50.0, 75.0, 100.0, 75.0, 50.0, 25.0, 0.0));
    for (int i = random.nextInt(4); i > 0; i--) {
      moves.add(5.0 * random.nextInt(21));
    }
    int at = random.nextInt(moves.size());
    int kind = random.nextInt(3);
    int row = 0;
    for (int i = 0; i < moves.size(); i++) {
      // From where it stands it does not move: nothing would be wrong then.
      boolean same = moves.get(i).equals(i > 0 ? moves.get(i - 1) : 0.0);
      double by = (random.nextBoolean() ? 1.0 : -1.0) * (4.0 + 20.0 * random.nextDouble());
      if (i == at && kind == 0 && !same) {
        trace.rests((setpoint, side) -> setpoint + by).to(moves.get(i));
        trace.rests((setpoint, side) -> setpoint - 0.05 * side);
        row = trace.rows.size() - 5;
      } else {
        trace.to(moves.get(i));
      }
      if (i == at && (kind > 0 || same)) {
        int length = 5 + random.nextInt(60);
        for (int k = 0; k < length; k++) {
          double share =
              kind == 1 ? 1.0 - Math.abs(1.0 - 2.0 * k / length) : Math.min(1.0, k / 5.0);
          trace.add(moves.get(i) + 2.0 * by * share);
        }
        row = trace.rows.size() - Math.max(1, length / 2);
      }
    }
    return row;
  }

  /** Leaves out, blanks, doubles and moves rows, far from the fault. */
  private static void mangle(Random random, List<String> lines, String kept) {
    for (int times = random.nextInt(4); times > 0; times--) {
      int at = 1 + random.nextInt(lines.size() - 1);
      int middle = lines.indexOf(kept);
      if (Math.abs(at - middle) < 80) {
        continue;
      }
      String line = lines.get(at);
      switch (random.nextInt(6)) {
        case 0 -> {
          int to = Math.min(at + random.nextInt(60), at < middle ? middle - 70 : lines.size());
          lines.subList(at, Math.max(at, to)).clear();
        }
        case 1 -> lines.set(at, line.replaceFirst("^[^,]*", ""));
        case 2 -> lines.set(at, line.replaceFirst(",[^,]*,", ",,"));
        case 3 -> lines.set(at, line.replaceFirst(",[^,]*$", ",nan"));
        case 4 -> lines.add(at, line);
        default -> Collections.swap(lines, at, at < middle ? 1 : lines.size() - 1);
      }
    }
  }
}
