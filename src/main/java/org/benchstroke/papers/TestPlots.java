package org.benchstroke.papers;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.function.Predicate;
import java.util.stream.DoubleStream;
import java.util.stream.IntStream;
import org.benchstroke.core.analysis.Figure;
import org.benchstroke.core.analysis.RampFollowing;
import org.benchstroke.core.analysis.Step;
import org.benchstroke.core.analysis.StepResponse;
import org.benchstroke.core.analysis.Trace;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.judge.JudgedRun;
import org.benchstroke.judge.TestTrace;
import org.benchstroke.papers.plot.Axis;
import org.benchstroke.papers.plot.Decimation;
import org.benchstroke.papers.plot.Decimation.Sample;
import org.benchstroke.papers.plot.Marker;
import org.benchstroke.papers.plot.Panel;
import org.benchstroke.papers.plot.Stroke;
import org.benchstroke.unit.MeasureKind;

/** The pictures of single tests: steps, ramps, staircases and holds. Stateless. */
final class TestPlots {
  private static final String POSITION = "position, % of travel";
  private static final String STAIRS =
      "How far the unit moved after a change of the signal, both counted from where it came to rest"
          + " on a clean approach. Rings: it stood; squares: it moved. Hatched: it moved between"
          + " these two changes; the result is the middle. Solid: first cycle; dashed: later ones.";
  private static final int X_TICKS = 6;
  private static final int MOST_MARKS = 12;
  private static final int Y_TICKS = 6;

  private final JudgedRun run;
  private final double gapSeconds;
  private int drawn;

  private TestPlots(JudgedRun run) {
    this.run = run;
    this.gapSeconds = run.unit().practice().gapPeriods() * run.bench().samplePeriodSeconds();
  }

  /** One section for each kind of test that was recorded. */
  static List<Section> sections(JudgedRun run) {
    TestPlots plots = new TestPlots(run);
    List<Section> sections = new ArrayList<>();
    plots.add(
        sections,
        "Step responses",
        "Dashed: the setpoint; solid: the position. Td dead time; T63 and T86 when 63.2 % and"
            + " 86.5 % of the change were reached; Ts settled, for good within the hatched band.",
        trace -> trace instanceof TestTrace.OfStep);
    plots.add(
        sections,
        "Ramps",
        "Dashed: the setpoint; solid: the position. Beside it, its distance from the setpoint that"
            + " is late by the lag; the square is the furthest. Beginning and end don't count.",
        trace -> trace instanceof TestTrace.OfRamp);
    plots.add(
        sections,
        "Dead band: where it moved",
        STAIRS,
        trace -> trace instanceof TestTrace.OfStairs s && s.kind() == MeasureKind.DEAD_BAND);
    plots.add(
        sections,
        "Resolution: where it moved",
        STAIRS,
        trace -> trace instanceof TestTrace.OfStairs s && s.kind() == MeasureKind.RESOLUTION);
    plots.add(
        sections,
        "Hunting: positions while held",
        "Dashed: the setpoint; solid: the position. Squares: turning points of motion beyond noise;"
            + " where there are many, the first of them have a picture of their own. Whether it"
            + " hunts stands under As ordered.",
        trace -> trace instanceof TestTrace.OfHold);
    return sections;
  }

  private void add(List<Section> sections, String title, String words, Predicate<TestTrace> which) {
    List<Block.Picture> panels = new ArrayList<>();
    run.traces().stream().filter(which).forEach(trace -> panels.addAll(panels(trace)));
    if (!panels.isEmpty()) {
      sections.add(
          new Section(title, List.of(new Block.Paragraph(words, false), new Block.Panels(panels))));
    }
  }

  private List<Block.Picture> panels(TestTrace trace) {
    drawn++;
    if (trace instanceof TestTrace.OfStep step) {
      return List.of(picture(step(step)));
    }
    if (trace instanceof TestTrace.OfRamp ramp) {
      List<Block.Picture> pictures = new ArrayList<>();
      pictures.add(picture(ramp(ramp)));
      ramp.residual().ifPresent(r -> pictures.add(picture(residual(ramp, r))));
      return pictures;
    }
    if (trace instanceof TestTrace.OfStairs stairs) {
      return List.of(picture(stairs(stairs)));
    }
    return holds((TestTrace.OfHold) trace);
  }

  private static Block.Picture picture(Panel panel) {
    return new Block.Picture(panel.title(), panel.svg());
  }

  private Panel step(TestTrace.OfStep seen) {
    Step step = seen.step();
    Optional<StepResponse> response = seen.response();
    Trace trace = seen.trace();
    List<Panel.Moment> moments = moments(response);
    double end = shownSeconds(seen);
    double before = -Math.min(1.0, 0.12 * end);
    Axis x = Axis.exactly("time since the step, s", before, end, X_TICKS);
    Trace shown = trace.between(step.seconds() + before, step.seconds() + end);
    List<Panel.Zone> zones =
        response.map(StepResponse::finish).filter(Figure::isPresent).stream()
            .map(
                f ->
                    new Panel.Zone(
                        f.value() - step.bandPercent(), f.value() + step.bandPercent(), false))
            .toList();
    List<Sample> setpoint =
        List.of(
            at(before, step.fromPercent()),
            at(0.0, step.fromPercent()),
            at(0.0, step.toPercent()),
            at(end, step.toPercent()));
    Axis y =
        covering(
            POSITION,
            shown,
            DoubleStream.concat(
                DoubleStream.of(step.fromPercent(), step.toPercent()),
                zones.stream().flatMapToDouble(z -> DoubleStream.of(z.from(), z.to()))));
    return new Panel(
        id("step"),
        seen.place().words(),
        "Step of " + seen.place().words() + ": " + told(moments),
        x,
        y,
        List.of(
            new Panel.Line(Stroke.SETPOINT, List.of(setpoint), false),
            new Panel.Line(Stroke.POSITION, runs(shown, step.seconds()), true)),
        zones,
        moments,
        List.of());
  }

  /** A little longer than it took to settle, as far as there are samples. */
  private static double shownSeconds(TestTrace.OfStep seen) {
    Trace trace = seen.trace();
    double last = trace.isEmpty() ? 1.0 : trace.seconds(trace.size() - 1) - seen.step().seconds();
    double told =
        seen.response()
            .flatMap(r -> r.settling().estimate().or(() -> r.t98().estimate()))
            .map(e -> e.value() * 1.6 + 0.5)
            .orElse(last);
    return Math.max(0.5, Math.min(last, told));
  }

  private static List<Panel.Moment> moments(Optional<StepResponse> response) {
    List<Panel.Moment> moments = new ArrayList<>();
    moment(moments, "Td", response.map(StepResponse::deadTime));
    moment(moments, "T63", response.map(StepResponse::t63));
    moment(moments, "T86", response.map(StepResponse::t86));
    moment(moments, "Ts", response.map(StepResponse::settling));
    moments.sort(Comparator.comparingDouble(Panel.Moment::x));
    return moments;
  }

  private static void moment(List<Panel.Moment> moments, String name, Optional<Figure> figure) {
    figure.flatMap(Figure::estimate).ifPresent(e -> moments.add(new Panel.Moment(e.value(), name)));
  }

  private static String told(List<Panel.Moment> moments) {
    List<String> words =
        moments.stream().map(m -> m.label() + " " + Numbers.fixed(m.x(), 2) + " s").toList();
    return words.isEmpty() ? "no time was measured." : String.join(", ", words) + ".";
  }

  private Panel ramp(TestTrace.OfRamp seen) {
    RampFollowing.Line line = seen.line();
    double zero = line.fromSeconds();
    double end = line.toSeconds() - zero;
    List<Sample> setpoint = List.of(at(0.0, line.fromPercent()), at(end, line.toPercent()));
    String title = "Ramp " + seen.place().words();
    return new Panel(
        id("ramp"),
        title,
        title + " in " + Numbers.fixed(end, 0) + " s.",
        Axis.exactly("time since its start, s", 0.0, end, X_TICKS),
        covering(POSITION, seen.trace(), DoubleStream.of(line.fromPercent(), line.toPercent())),
        List.of(
            new Panel.Line(Stroke.SETPOINT, List.of(setpoint), false),
            new Panel.Line(Stroke.POSITION, runs(seen.trace(), zero), true)),
        List.of(),
        List.of(),
        List.of());
  }

  private Panel residual(TestTrace.OfRamp seen, Trace residual) {
    double zero = seen.line().fromSeconds();
    double end = seen.line().toSeconds() - zero;
    int furthest =
        IntStream.range(0, residual.size())
            .boxed()
            .max(Comparator.comparingDouble(i -> Math.abs(residual.percent(i))))
            .orElseThrow();
    double much = residual.percent(furthest);
    String title = "Ramp " + seen.place().words() + ", residual";
    return new Panel(
        id("residual"),
        title,
        title + ": at most " + Numbers.fixed(Math.abs(much), 2) + " %.",
        Axis.exactly("time since its start, s", 0.0, end, X_TICKS),
        covering("residual, % of travel", residual, DoubleStream.of(0.0)),
        List.of(new Panel.Line(Stroke.POSITION, runs(residual, zero), true)),
        List.of(),
        List.of(),
        List.of(new Panel.Dot(residual.seconds(furthest) - zero, much, Marker.SQUARE)));
  }

  private Panel stairs(TestTrace.OfStairs seen) {
    List<Panel.Line> lines = new ArrayList<>();
    List<Panel.Dot> dots = new ArrayList<>();
    for (List<TestTrace.Stair> cycle : seen.cycles()) {
      cycle.forEach(stair -> dots.add(dot(stair)));
      Stroke stroke = lines.isEmpty() ? Stroke.UP : Stroke.DOWN;
      lines.add(new Panel.Line(stroke, cycle.stream().map(TestPlots::stem).toList(), false));
    }
    String found =
        seen.found().isEmpty()
            ? "no result."
            : "moved between "
                + Numbers.plain(seen.found().get(0).lowPercent())
                + " % and "
                + Numbers.plain(seen.found().get(0).highPercent())
                + " % of change.";
    List<Panel.Zone> zones =
        seen.found().stream()
            .map(f -> new Panel.Zone(f.lowPercent(), f.highPercent(), true))
            .distinct()
            .toList();
    return new Panel(
        id("stairs"),
        seen.place().words(),
        "Staircase at " + seen.place().words() + ": " + found,
        Axis.exactly(
            "change of the signal, %",
            0.0, 1.06 * dots.stream().mapToDouble(Panel.Dot::x).max().orElse(1.0), X_TICKS),
        around(
            "moved by, %",
            DoubleStream.concat(DoubleStream.of(0.0), dots.stream().mapToDouble(Panel.Dot::y))),
        lines,
        zones,
        List.of(),
        dots);
  }

  private static Panel.Dot dot(TestTrace.Stair stair) {
    Marker marker = stair.moved() ? Marker.SQUARE : Marker.RING;
    return new Panel.Dot(stair.changePercent(), stair.movedPercent(), marker);
  }

  /** From where it stood before to where it stands now. */
  private static List<Sample> stem(TestTrace.Stair stair) {
    return List.of(at(stair.changePercent(), 0.0), at(stair.changePercent(), stair.movedPercent()));
  }

  /** Many cycles fill a picture: a second one then shows the first of them with their marks. */
  private List<Block.Picture> holds(TestTrace.OfHold seen) {
    Trace trace = seen.trace();
    List<Integer> turning = seen.turning();
    if (turning.size() <= MOST_MARKS) {
      return List.of(picture(hold(seen, "hold", seen.place().words(), 0, trace.size())));
    }
    int end = Math.min(trace.size(), turning.get(MOST_MARKS) + 1);
    List<Integer> few = turning.subList(0, MOST_MARKS);
    TestTrace.OfHold bare = marked(seen, List.of());
    return List.of(
        picture(hold(bare, "hold", seen.place().words(), 0, trace.size())),
        picture(
            hold(
                marked(seen, few),
                "cycles",
                seen.place().words() + ", the first of " + turning.size() + " turning points",
                Math.max(0, 2 * turning.get(0) - turning.get(1)),
                end)));
  }

  private static TestTrace.OfHold marked(TestTrace.OfHold seen, List<Integer> turning) {
    return new TestTrace.OfHold(
        seen.place(), seen.setpointPercent(), seen.trace(), turning, seen.hunting());
  }

  private Panel hold(TestTrace.OfHold seen, String id, String title, int from, int to) {
    Trace trace = seen.trace();
    double zero = trace.isEmpty() ? 0.0 : trace.seconds(0);
    double start = trace.isEmpty() ? 0.0 : trace.seconds(from) - zero;
    double end = to < 2 ? start + 1.0 : trace.seconds(to - 1) - zero;
    List<Panel.Dot> dots =
        seen.turning().stream()
            .map(i -> new Panel.Dot(trace.seconds(i) - zero, trace.percent(i), Marker.SQUARE))
            .toList();
    // at least a few times what counts as motion: noise shall not look like hunting
    double least = Math.max(2.0 * seen.leastPercent(), 0.5);
    double middle = trace.isEmpty() ? seen.setpointPercent() : trace.spread().mean();
    List<Sample> setpoint =
        List.of(at(start, seen.setpointPercent()), at(end, seen.setpointPercent()));
    return new Panel(
        id(id),
        title,
        "Position while held at " + title + ".",
        Axis.exactly("time held, s", start, end, X_TICKS),
        covering(
            POSITION,
            trace,
            DoubleStream.of(seen.setpointPercent(), middle - least, middle + least)),
        List.of(
            new Panel.Line(Stroke.SETPOINT, List.of(setpoint), false),
            new Panel.Line(Stroke.POSITION, runs(trace.slice(from, to), zero), true)),
        List.of(),
        List.of(),
        dots);
  }

  private String id(String what) {
    return what + "-plot-" + drawn;
  }

  private static Sample at(double x, double y) {
    return new Sample(x, y, false);
  }

  private List<List<Sample>> runs(Trace trace, double zeroSeconds) {
    List<Sample> samples = new ArrayList<>();
    for (int i = 0; i < trace.size(); i++) {
      samples.add(new Sample(trace.seconds(i) - zeroSeconds, trace.percent(i), trace.saturated(i)));
    }
    return Decimation.unbroken(samples, gapSeconds);
  }

  private static Axis covering(String label, Trace trace, DoubleStream others) {
    return around(
        label,
        DoubleStream.concat(IntStream.range(0, trace.size()).mapToDouble(trace::percent), others));
  }

  /** An axis a little wider than the values. */
  private static Axis around(String label, DoubleStream values) {
    double[] all = values.toArray();
    double low = DoubleStream.of(all).min().orElse(0.0);
    double high = DoubleStream.of(all).max().orElse(1.0);
    double margin = Math.max(0.06 * (high - low), 0.005);
    return Axis.exactly(label, low - margin, high + margin, Y_TICKS);
  }
}
