package org.benchstroke.papers;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.SplittableRandom;
import org.benchstroke.ReferenceData;
import org.benchstroke.core.statistics.Baseline;
import org.benchstroke.core.statistics.ChartRule;
import org.benchstroke.core.statistics.Charts;
import org.benchstroke.core.statistics.CheckStandard;
import org.benchstroke.core.statistics.ControlChart;
import org.benchstroke.core.statistics.CrossedGauge;
import org.benchstroke.core.statistics.GaugeStudy;
import org.benchstroke.core.statistics.Pareto;
import org.benchstroke.core.statistics.Weighting;
import org.benchstroke.papers.HistoryPlots.Subject;
import org.benchstroke.papers.plot.Band;
import org.benchstroke.papers.plot.Branch;
import org.benchstroke.papers.plot.Decimation.Sample;
import org.benchstroke.papers.plot.Drawing;
import org.benchstroke.papers.plot.Marker;
import org.benchstroke.papers.plot.Shape;
import org.benchstroke.papers.plot.Stroke;
import org.benchstroke.papers.plot.SvgCanvas;
import org.junit.jupiter.api.Test;

/** Pictures of made-up histories. */
class HistoryPlotsTest {
  private static final Baseline FIRST = new Baseline.First(20);

  @Test
  void limitsAreNamedAndSignalsSayOfWhatTheyAre() {
    Drawing drawing = control();
    assertThat(words(drawing))
        .anyMatch(w -> w.startsWith("upper limit "))
        .anyMatch(w -> w.startsWith("lower limit −"))
        .anyMatch(w -> w.startsWith("centre "))
        .contains("beyond a limit", "2 of 3 beyond 2σ", "8 on one side", "reading, number");
    long squares =
        flat(drawing.shapes()).stream()
            .filter(s -> s instanceof Shape.Mark m && m.marker() == Marker.SQUARE)
            .count();
    long signals = chart().signals().stream().map(ControlChart.Signal::index).distinct().count();
    // one at the point, one in the row of each rule that it meets, one in the legend
    assertThat(squares).isEqualTo(signals + chart().signals().size() + 1);
    assertThat(drawing.caption().description()).startsWith(signals + " points are signals.");
  }

  @Test
  void aChartInControlSaysSoAndHasNoSquare() {
    ControlChart quiet =
        (ControlChart)
            Charts.movingRange(values(new SplittableRandom(4), 25, 0.0), new Baseline.First(25));
    assertThat(quiet.signals()).isEmpty();
    Drawing drawing = HistoryPlots.control(subject("mr", "moving range, s"), quiet);
    assertThat(drawing.caption().description()).startsWith("No rule is met.");
    assertThat(words(drawing)).doesNotContain("signal; its rule stands below");
  }

  @Test
  void theCheckStandardNamesItsLines() {
    assertThat(words(check()))
        .filteredOn(w -> w.startsWith("stop, 3σ") || w.startsWith("warning, 2σ"))
        .hasSize(4);
    assertThat(words(check())).contains("stop, beyond 3σ", "warning, beyond 2σ");
    assertThat(check().caption().description())
        .startsWith("The bench is stopped. No good: 1 of 30.");
  }

  @Test
  void barsHaveTheirFiguresBesideThem() {
    assertThat(words(pareto()))
        .contains("slack after the sensor", "9, 45 %; sum 45 %", "1, 5 %; sum 100 %");
    assertThat(words(gauge()))
        .contains("repeatability (EV)", "gauge with operators (GRR)", "50.4 %", "80.7 %");
  }

  @Test
  void comparedCurvesDifferByMoreThanTheirColour() {
    List<Stroke> strokes =
        flat(traces().shapes()).stream()
            .filter(s -> s instanceof Shape.Curve)
            .map(s -> ((Shape.Curve) s).stroke())
            .distinct()
            .toList();
    assertThat(strokes).extracting(Stroke::dashes).doesNotHaveDuplicates().hasSize(2);
    assertThat(words(traces())).contains("as found, solid", "as left, dashed");
    List<Marker> markers =
        flat(errors().shapes()).stream()
            .filter(s -> s instanceof Shape.Mark)
            .map(s -> ((Shape.Mark) s).marker())
            .distinct()
            .toList();
    assertThat(markers).hasSize(4);
  }

  @Test
  void allStandsWithinThePicture() {
    for (Drawing drawing : all()) {
      String id = drawing.caption().id();
      for (Shape shape : flat(drawing.shapes())) {
        if (shape instanceof Shape.Text text) {
          // at most 7 px a letter, as the legend reckons
          double wide = text.words().length() * 7.0;
          boolean turned = text.face() == Shape.Face.UPWARD;
          double part =
              turned
                  ? 0.0
                  : switch (text.anchor()) {
                    case START -> 0.0;
                    case MIDDLE -> 0.5;
                    case END -> 1.0;
                  };
          double left = text.x() - part * wide;
          assertThat(left).as(id + ": " + text.words()).isGreaterThanOrEqualTo(0.0);
          assertThat(turned ? left : left + wide)
              .as(id + ": " + text.words())
              .isLessThanOrEqualTo(drawing.width());
          assertThat(text.y()).as(id).isBetween(8.0, drawing.height() - 3.0);
        }
        if (shape instanceof Shape.Area area) {
          assertThat(area.box().left()).as(id).isGreaterThanOrEqualTo(0.0);
          assertThat(area.box().left() + area.box().width())
              .as(id)
              .isLessThanOrEqualTo(drawing.width());
        }
      }
      assertThat(SvgCanvas.svg(drawing)).as(id).doesNotContain("NaN").doesNotContain("–");
    }
  }

  /** The picture in the documents is the one that the program draws. */
  @Test
  void thePictureOfTheDocumentsIsThis() throws IOException {
    Path picture = Path.of("docs", "images", "control-chart.svg");
    assertThat(Files.readString(picture)).isEqualTo(SvgCanvas.svg(control()));
  }

  static List<Drawing> all() {
    return List.of(control(), ewma(), many(), check(), pareto(), gauge(), traces(), errors());
  }

  private static ControlChart chart() {
    double[] values = values(new SplittableRandom(3), 40, 0.0);
    for (int i = 28; i < 40; i++) {
      values[i] += 0.12;
    }
    values[34] = 0.32;
    return (ControlChart) Charts.individuals(values, FIRST, ChartRule.ZONES);
  }

  private static Drawing control() {
    return HistoryPlots.control(subject("control", "travel error, % of travel"), chart());
  }

  private static Drawing ewma() {
    double[] values = values(new SplittableRandom(3), 40, 0.0);
    for (int i = 28; i < 40; i++) {
      values[i] += 0.08;
    }
    Weighting weighting = new Weighting(0.2, 3.0, Weighting.Limits.EXACT);
    return HistoryPlots.control(
        subject("ewma", "EWMA of the dead band, % of travel"),
        (ControlChart) Charts.ewma(values, FIRST, weighting));
  }

  private static Drawing many() {
    double[] values = values(new SplittableRandom(5), 400, 0.0);
    return HistoryPlots.control(
        subject("many", "stroke time, s"),
        (ControlChart) Charts.individuals(values, FIRST, ChartRule.ZONES));
  }

  private static Drawing check() {
    SplittableRandom random = new SplittableRandom(6);
    List<CheckStandard.Reading> readings = new ArrayList<>();
    for (int i = 0; i < 30; i++) {
      double drift = i < 24 ? 0.0 : (i - 23) * 0.0018;
      readings.add(
          new CheckStandard.Reading(
              LocalDate.of(2026, 1, 5).plusDays(7L * i),
              12.0 + 0.003 * random.nextGaussian() + drift));
    }
    return HistoryPlots.check(
        subject("check", "loop meter at 12 mA, mA"), CheckStandard.of(readings, FIRST));
  }

  private static Drawing pareto() {
    List<String> seen = new ArrayList<>();
    String[] causes = {
      "slack after the sensor", "zero shift", "cam set short", "dead spot", "span"
    };
    int[] counts = {9, 5, 3, 2, 1};
    for (int i = 0; i < counts.length; i++) {
      for (int k = 0; k < counts[i]; k++) {
        seen.add(causes[i]);
      }
    }
    return HistoryPlots.pareto(
        subject("pareto", "units that failed"), Pareto.of(seen), cause -> cause);
  }

  /** Source: Six Sigma with R (2012) chapter 5, as in the reference data: 50.4 % and 80.7 %. */
  private static Drawing gauge() {
    double[][][] readings = new double[3][3][3];
    for (Map<String, String> row : ReferenceData.csv("gauge-rr-sixsigma.csv")) {
      readings[Integer.parseInt(row.get("prototype")) - 1][
              Integer.parseInt(row.get("operator")) - 1][Integer.parseInt(row.get("run")) - 1] =
          Double.parseDouble(row.get("time1"));
    }
    return HistoryPlots.gauge(
        subject("gauge", "share, %"),
        (GaugeStudy) CrossedGauge.byVariance(readings),
        OptionalDouble.of(1.1));
  }

  private static Drawing traces() {
    return HistoryPlots.traces(
        subject("traces", "position, % of travel"),
        new HistoryPlots.Compared("as found", List.of(stroke(0.8, 14.0))),
        new HistoryPlots.Compared("as left", List.of(stroke(0.3, 15.2))));
  }

  private static List<Sample> stroke(double dead, double seconds) {
    List<Sample> samples = new ArrayList<>();
    for (int i = 0; i <= 180; i++) {
      double t = i * 0.1;
      double y = Math.max(0.0, Math.min(100.0, 100.0 * (t - dead) / seconds));
      samples.add(new Sample(t, y, false));
    }
    return samples;
  }

  private static Drawing errors() {
    double[] found = {0.3, 0.7, 1.1, 0.9, 1.6};
    double[] left = {0.1, 0.05, -0.1, 0.1, 0.2};
    return HistoryPlots.errors(
        subject("errors", "error, % of travel"),
        new HistoryPlots.Errors("as found", points(found, 0.0), points(found, -0.5)),
        new HistoryPlots.Errors("as left", points(left, 0.0), points(left, -0.2)),
        Optional.of(new Band("limit ±1 %", OptionalDouble.of(-1), OptionalDouble.of(1), 0.0, "")));
  }

  private static List<Branch.Point> points(double[] values, double off) {
    List<Branch.Point> points = new ArrayList<>();
    for (int i = 0; i < values.length; i++) {
      points.add(new Branch.Point(25.0 * i, values[i] + off, 0.1));
    }
    return points;
  }

  private static Subject subject(String id, String quantity) {
    return new Subject(id, "A made-up history", quantity);
  }

  private static double[] values(SplittableRandom random, int n, double mean) {
    double[] values = new double[n];
    for (int i = 0; i < n; i++) {
      values[i] = mean + 0.08 * random.nextGaussian();
    }
    return values;
  }

  private static List<String> words(Drawing drawing) {
    return flat(drawing.shapes()).stream()
        .filter(s -> s instanceof Shape.Text)
        .map(s -> ((Shape.Text) s).words())
        .toList();
  }

  private static List<Shape> flat(List<Shape> shapes) {
    List<Shape> flat = new ArrayList<>();
    for (Shape shape : shapes) {
      if (shape instanceof Shape.Clipped clipped) {
        flat.addAll(flat(clipped.shapes()));
      } else {
        flat.add(shape);
      }
    }
    return flat;
  }
}
