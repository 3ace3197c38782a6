package org.benchstroke.papers.plot;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.StringReader;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.DoubleStream;
import javax.xml.parsers.DocumentBuilderFactory;
import org.benchstroke.papers.plot.Decimation.Sample;
import org.junit.jupiter.api.Test;
import org.w3c.dom.Document;
import org.w3c.dom.Element;
import org.xml.sax.InputSource;

class PlotTest {
  private static final String HOSTILE = "<script>\"&'\u0000]]>";

  @Test
  void thePictureHasARoleATitleAndADescription() throws Exception {
    Element svg =
        parse(SvgCanvas.svg(xy(List.of(branch()), HOSTILE).drawing())).getDocumentElement();
    assertThat(svg.getAttribute("role")).isEqualTo("img");
    assertThat(svg.getAttribute("aria-labelledby")).isEqualTo("p-title p-desc");
    assertThat(svg.getElementsByTagName("title").item(0).getTextContent())
        .isEqualTo("<script>\"&'\uFFFD]]>");
    assertThat(svg.getElementsByTagName("desc").item(0).getTextContent()).isEqualTo("words");
    assertThat(svg.getElementsByTagName("script").getLength()).isZero();
  }

  @Test
  void limitsAndGuardBandsStandWhereTheyBelong() {
    String svg = SvgCanvas.svg(xy(List.of(branch()), "errors").drawing());
    // y axis -2..2 over 215 px below a legend of one row: +1 is a quarter down
    double top = 30.0;
    assertThat(svg).contains("y1=\"" + SvgCanvas.number(top + 215.0 * 0.25) + "\"");
    assertThat(svg).contains("y1=\"" + SvgCanvas.number(top + 215.0 * 0.75) + "\"");
    assertThat(svg).contains("fill=\"url(#p-hatch)\"");
    assertThat(svg).doesNotContain(" opacity=");
  }

  @Test
  void noLineIsDrawnAcrossAMissingPoint() {
    Branch broken =
        new Branch(
            "up",
            Marker.TRIANGLE_UP,
            Stroke.UP,
            List.of(List.of(point(0.0), point(25.0)), List.of(point(75.0)), List.of(point(100.0))));
    String whole = SvgCanvas.svg(xy(List.of(branch()), "t").drawing());
    String gap = SvgCanvas.svg(xy(List.of(broken), "t").drawing());
    assertThat(joins(whole)).isEqualTo(2);
    assertThat(joins(gap)).isEqualTo(1);
  }

  @Test
  void theTraceIsBrokenAtAGapAndTheGapIsShown() throws Exception {
    List<Sample> samples = new ArrayList<>();
    for (int i = 0; i < 100; i++) {
      samples.add(new Sample(i < 50 ? i : i + 20, 40.0, false));
    }
    TimePlot plot =
        new TimePlot(
            new Caption("t", "run", "words"),
            120.0,
            samples,
            3.0,
            List.of(new TimePlot.Step(0.0, 60.0, 40.0)),
            List.of(new TimePlot.Mark(0.0, HOSTILE)),
            List.of(new TimePlot.Disturbance(60.0, 70.0, HOSTILE)));
    String svg = SvgCanvas.svg(plot.drawing());
    assertThat(parse(svg).getElementsByTagName("script").getLength()).isZero();
    List<double[]> traces = traces(svg);
    assertThat(traces).hasSize(2);
    double pixelsPerSecond = (Frame.RIGHT - Frame.LEFT) / 120.0;
    assertThat(traces.get(0)[1]).isLessThan(Frame.LEFT + 49.5 * pixelsPerSecond);
    assertThat(traces.get(1)[0]).isGreaterThan(Frame.LEFT + 69.5 * pixelsPerSecond);
    assertThat(svg).contains("no readings");
  }

  @Test
  void aSampleAloneBetweenGapsIsStillSeen() {
    List<Sample> samples = List.of(new Sample(5.0, 20.0, true), new Sample(50.0, 30.0, false));
    TimePlot plot =
        new TimePlot(
            new Caption("t", "run", "words"), 60.0, samples, 1.0, List.of(), List.of(), List.of());
    assertThat(SvgCanvas.svg(plot.drawing()))
        .contains("h0\"")
        .contains("reading at the end of its range");
  }

  @Test
  void aLongRunIsDrawnInMinutes() {
    List<Sample> samples = List.of(new Sample(0.0, 20.0, false), new Sample(900.0, 30.0, false));
    TimePlot plot =
        new TimePlot(
            new Caption("t", "run", "words"), 900.0, samples, 1.0, List.of(), List.of(), List.of());
    assertThat(SvgCanvas.svg(plot.drawing())).contains("time, min").doesNotContain("time, s");
  }

  @Test
  void anotherCanvasDrawsThePictureAndNothingBesideIt() {
    Drawing drawing = xy(List.of(branch()), "errors").drawing();
    List<String> words = new ArrayList<>();
    List<Shape.Point> places = new ArrayList<>();
    Canvas canvas =
        new Canvas() {
          @Override
          public void line(Shape.Line line) {
            places.add(new Shape.Point(line.x1(), line.y1()));
            places.add(new Shape.Point(line.x2(), line.y2()));
          }

          @Override
          public void curve(Shape.Curve curve) {
            places.addAll(curve.points());
          }

          @Override
          public void area(Shape.Area area) {
            places.add(new Shape.Point(area.box().left(), area.box().top()));
            places.add(new Shape.Point(area.box().right(), area.box().bottom()));
          }

          @Override
          public void mark(Shape.Mark mark) {
            places.addAll(mark.marker().corners(mark.x(), mark.y()));
          }

          @Override
          public void text(Shape.Text text) {
            words.add(text.words());
            places.add(new Shape.Point(text.x(), text.y()));
          }

          @Override
          public void clipped(Shape.Clipped clipped) {
            clipped.shapes().forEach(shape -> shape.on(this));
          }
        };
    drawing.shapes().forEach(shape -> shape.on(canvas));
    assertThat(words).contains("limit", "guard band", "up", "setpoint, %", "error, %", "−2", "100");
    assertThat(places)
        .hasSizeGreaterThan(50)
        .allSatisfy(
            at -> {
              assertThat(at.x()).isBetween(0.0, drawing.width());
              assertThat(at.y()).isBetween(0.0, drawing.height());
            });
  }

  private static long joins(String svg) {
    return Pattern.compile("d=\"M[^\"ZVh]*L[^\"ZVh]*\"").matcher(svg).results().count();
  }

  /** First and last x of each drawn piece of the position's trace. */
  private static List<double[]> traces(String svg) {
    Matcher paths =
        Pattern.compile("d=\"M([0-9.]+) [^\"]*?([0-9.]+) [0-9.]+\"[^>]*stroke=\"#1d4f91\"")
            .matcher(svg);
    List<double[]> ends = new ArrayList<>();
    while (paths.find()) {
      ends.add(
          new double[] {Double.parseDouble(paths.group(1)), Double.parseDouble(paths.group(2))});
    }
    return ends;
  }

  private static Branch.Point point(double x) {
    return new Branch.Point(x, 0.2, 0.1);
  }

  private static Branch branch() {
    return new Branch(
        "up",
        Marker.TRIANGLE_UP,
        Stroke.UP,
        List.of(List.of(point(0.0), point(25.0), point(50.0)), List.of(point(75.0), point(100.0))));
  }

  private static XyPlot xy(List<Branch> branches, String title) {
    Band band =
        new Band("limit", OptionalDouble.of(-1.0), OptionalDouble.of(1.0), 0.1, "guard band");
    return new XyPlot(
        new Caption("p", title, "words"),
        Axis.travel("setpoint, %", DoubleStream.empty(), 11),
        Axis.exactly("error, %", -2.0, 2.0, 4),
        branches,
        false,
        Optional.of(band));
  }

  private static Document parse(String svg) throws Exception {
    return DocumentBuilderFactory.newInstance()
        .newDocumentBuilder()
        .parse(new InputSource(new StringReader(svg)));
  }
}
