package org.benchstroke.papers;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.DoubleSummaryStatistics;
import java.util.List;
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
import org.benchstroke.papers.plot.Caption;
import org.benchstroke.papers.plot.Decimation;
import org.benchstroke.papers.plot.Decimation.Sample;
import org.benchstroke.papers.plot.Drawing;
import org.benchstroke.papers.plot.Marker;
import org.benchstroke.papers.plot.Panel;
import org.benchstroke.papers.plot.Stroke;
import org.benchstroke.unit.MeasureKind;

/** The pictures of what measures were taken from, each kind of trace in its way. Stateless. */
final class TestPlots {
  private static final String POSITION = "position, % of travel";
  private static final String STAIRS =
      "How far the unit moved after a change of the signal, both counted from where it came to rest"
          + " on a clean approach. Rings: it stood; squares: it moved. Hatched: it moved between"
          + " these two changes; the result is the middle. Solid: first cycle; dashed: later ones.";
  private static final int TICKS = 6;
  private static final int MOST_MARKS = 12;
  private static final int STRETCHES = 50;

  /** What stands under one heading, in the order of a report. */
  private enum Group {
    STEPS(
        "Step responses",
        "Dashed: the setpoint; solid: the position. Td dead time; T63 and T86 when 63.2 % and"
            + " 86.5 % of the change were reached; Ts settled, for good within the hatched band."),
    RAMPS(
        "Ramps",
        "Dashed: the setpoint; solid: the position. Second plot: its distance from the setpoint"
            + " delayed by the lag; solid: the mean of each short stretch; dashed: the highest and"
            + " the lowest in it; square: the largest of all. Beginning and end don't count."),
    DEAD_BAND("Dead band: where it moved", STAIRS),
    RESOLUTION("Resolution: where it moved", STAIRS),
    HOLDS(
        "Hunting: positions while held",
        "Dashed: the setpoint; solid: the position. Squares: turning points of motion beyond noise;"
            + " where there are many, the first of them have a picture of their own. Whether it"
            + " hunts is stated under As ordered.");

    private final String title;
    private final String words;

    Group(String title, String words) {
      this.title = title;
      this.words = words;
    }

    static Group of(TestTrace trace) {
      if (trace instanceof TestTrace.OfStairs stairs) {
        return stairs.kind() == MeasureKind.RESOLUTION ? RESOLUTION : DEAD_BAND;
      }
      if (trace instanceof TestTrace.OfHold) {
        return HOLDS;
      }
      return trace instanceof TestTrace.OfStep ? STEPS : RAMPS;
    }
  }

  private final JudgedRun run;
  private final double gapSeconds;
  private int drawn;

  private TestPlots(JudgedRun run) {
    this.run = run;
    this.gapSeconds = run.samples().longestPauseSeconds();
  }

  /** One section for each kind of trace that there is. */
  static List<Section> sections(JudgedRun run) {
    TestPlots plots = new TestPlots(run);
    List<Section> sections = new ArrayList<>();
    for (Group group : Group.values()) {
      List<Drawing> drawings = plots.drawings(group);
      if (!drawings.isEmpty()) {
        Block words = new Block.Paragraph(group.words);
        sections.add(new Section(group.title, List.of(words, new Block.Panels(drawings))));
      }
    }
    return sections;
  }

  private List<Drawing> drawings(Group group) {
    return run.traces().stream()
        .filter(trace -> Group.of(trace) == group)
        .flatMap(trace -> panels(trace).stream())
        .map(Panel::drawing)
        .toList();
  }

  private List<Panel> panels(TestTrace trace) {
    drawn++;
    if (trace instanceof TestTrace.OfStep step) {
      return List.of(step(step));
    }
    if (trace instanceof TestTrace.OfRamp ramp) {
      List<Panel> panels = new ArrayList<>();
      panels.add(ramp(ramp));
      ramp.residual().ifPresent(r -> panels.add(residual(ramp, r)));
      return panels;
    }
    if (trace instanceof TestTrace.OfStairs stairs) {
      return List.of(stairs(stairs));
    }
    return holds((TestTrace.OfHold) trace);
  }

  private Panel step(TestTrace.OfStep seen) {
    Step step = seen.step();
    List<Panel.Moment> moments = seen.response().map(TestPlots::moments).orElse(List.of());
    double end = shownSeconds(seen);
    double before = -Math.min(1.0, 0.12 * end);
    Trace shown = seen.trace().between(step.seconds() + before, step.seconds() + end);
    List<Panel.Zone> zones =
        seen.response().flatMap(r -> r.finish().estimate()).stream()
            .map(finish -> band(finish.value(), step.bandPercent()))
            .toList();
    DoubleStream others =
        DoubleStream.concat(
            DoubleStream.of(step.fromPercent(), step.toPercent()),
            zones.stream().flatMapToDouble(z -> DoubleStream.of(z.from(), z.to())));
    String place = seen.place().words();
    return new Panel(
        caption("step", place, "Step of " + place + ": " + told(moments)),
        Axis.exactly("time since the step, s", before, end, TICKS),
        covering(POSITION, shown, others),
        List.of(
            setpoint(
                at(before, step.fromPercent()),
                at(0.0, step.fromPercent()),
                at(0.0, step.toPercent()),
                at(end, step.toPercent())),
            line(shown, step.seconds())),
        zones,
        moments,
        List.of());
  }

  private static Panel.Zone band(double middle, double half) {
    return new Panel.Zone(middle - half, middle + half, false);
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

  private static List<Panel.Moment> moments(StepResponse response) {
    List<Panel.Moment> moments = new ArrayList<>();
    moment(moments, "Td", response.deadTime());
    moment(moments, "T63", response.t63());
    moment(moments, "T86", response.t86());
    moment(moments, "Ts", response.settling());
    moments.sort(Comparator.comparingDouble(Panel.Moment::x));
    return moments;
  }

  private static void moment(List<Panel.Moment> moments, String name, Figure figure) {
    figure.estimate().ifPresent(e -> moments.add(new Panel.Moment(e.value(), name)));
  }

  private static String told(List<Panel.Moment> moments) {
    List<String> words =
        moments.stream().map(m -> m.label() + " " + Numbers.fixed(m.x(), 2) + " s").toList();
    return words.isEmpty() ? "no time was measured." : String.join(", ", words) + ".";
  }

  private Panel ramp(TestTrace.OfRamp seen) {
    RampFollowing.Line line = seen.line();
    double end = line.toSeconds() - line.fromSeconds();
    String title = "Ramp " + seen.place().words();
    return new Panel(
        caption("ramp", title, title + " in " + Numbers.fixed(end, 0) + " s."),
        Axis.exactly("time since its start, s", 0.0, end, TICKS),
        covering(POSITION, seen.trace(), DoubleStream.of(line.fromPercent(), line.toPercent())),
        List.of(
            setpoint(at(0.0, line.fromPercent()), at(end, line.toPercent())),
            line(seen.trace(), line.fromSeconds())));
  }

  private Panel residual(TestTrace.OfRamp seen, Trace residual) {
    double zero = seen.line().fromSeconds();
    int furthest =
        IntStream.range(0, residual.size())
            .boxed()
            .max(Comparator.comparingDouble(i -> Math.abs(residual.percent(i))))
            .orElseThrow();
    double much = residual.percent(furthest);
    String title = "Ramp " + seen.place().words() + ", residual";
    return new Panel(
        caption("residual", title, title + ": at most " + Numbers.fixed(Math.abs(much), 2) + " %."),
        Axis.exactly("time since its start, s", 0.0, seen.line().toSeconds() - zero, TICKS),
        covering("residual, % of travel", residual, DoubleStream.of(0.0)),
        stretches(residual, zero),
        List.of(),
        List.of(),
        List.of(new Panel.Dot(residual.seconds(furthest) - zero, much, Marker.SQUARE)));
  }

  /** Thousands of starts and stops in one line would be a block of ink. */
  private static List<Panel.Line> stretches(Trace trace, double zero) {
    int count = Math.min(STRETCHES, trace.size());
    List<Sample> mean = new ArrayList<>();
    List<Sample> highest = new ArrayList<>();
    List<Sample> lowest = new ArrayList<>();
    for (int i = 0; i < count; i++) {
      int from = (int) ((long) trace.size() * i / count);
      int to = (int) ((long) trace.size() * (i + 1) / count);
      double middle = (trace.seconds(from) + trace.seconds(to - 1)) / 2.0 - zero;
      DoubleSummaryStatistics of =
          IntStream.range(from, to).mapToDouble(trace::percent).summaryStatistics();
      mean.add(at(middle, of.getAverage()));
      highest.add(at(middle, of.getMax()));
      lowest.add(at(middle, of.getMin()));
    }
    return List.of(
        new Panel.Line(Stroke.SETPOINT, List.of(highest), false),
        new Panel.Line(Stroke.SETPOINT, List.of(lowest), false),
        new Panel.Line(Stroke.POSITION, List.of(mean), false));
  }

  private Panel stairs(TestTrace.OfStairs seen) {
    List<Panel.Line> lines = new ArrayList<>();
    List<Panel.Dot> dots = new ArrayList<>();
    for (List<TestTrace.Stair> cycle : seen.cycles()) {
      cycle.forEach(stair -> dots.add(dot(stair)));
      Stroke stroke = lines.isEmpty() ? Stroke.UP : Stroke.DOWN;
      lines.add(new Panel.Line(stroke, cycle.stream().map(TestPlots::stem).toList(), false));
    }
    List<Panel.Zone> zones =
        seen.found().stream()
            .map(f -> new Panel.Zone(f.lowPercent(), f.highPercent(), true))
            .distinct()
            .toList();
    String found =
        zones.isEmpty()
            ? "no result."
            : "moved between "
                + Numbers.plain(zones.get(0).from())
                + " % and "
                + Numbers.plain(zones.get(0).to())
                + " % of change.";
    String place = seen.place().words();
    double widest = dots.stream().mapToDouble(Panel.Dot::x).max().orElse(1.0);
    DoubleStream moved = dots.stream().mapToDouble(Panel.Dot::y);
    return new Panel(
        caption("stairs", place, "Staircase at " + place + ": " + found),
        Axis.exactly("change of the signal, %", 0.0, 1.06 * widest, TICKS),
        Axis.around("moved by, %", DoubleStream.concat(DoubleStream.of(0.0), moved), TICKS),
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
  private List<Panel> holds(TestTrace.OfHold seen) {
    List<Integer> turning = seen.turning();
    String place = seen.place().words();
    Trace trace = seen.trace();
    if (turning.size() <= MOST_MARKS) {
      return List.of(hold(seen, caption("hold", place), trace, turning));
    }
    String few = place + ", the first of " + turning.size() + " turning points";
    int from = Math.max(0, 2 * turning.get(0) - turning.get(1));
    int to = Math.min(trace.size(), turning.get(MOST_MARKS) + 1);
    return List.of(
        hold(seen, caption("hold", place), trace, List.of()),
        hold(seen, caption("cycles", few), trace.slice(from, to), turning.subList(0, MOST_MARKS)));
  }

  private Caption caption(String what, String title) {
    return caption(what, title, "Position while held at " + title + ".");
  }

  private Panel hold(TestTrace.OfHold seen, Caption caption, Trace shown, List<Integer> turning) {
    Trace trace = seen.trace();
    double zero = trace.isEmpty() ? 0.0 : trace.seconds(0);
    double start = shown.isEmpty() ? 0.0 : shown.seconds(0) - zero;
    double end = shown.size() < 2 ? start + 1.0 : shown.seconds(shown.size() - 1) - zero;
    double held = seen.setpointPercent();
    // at least a few times what counts as motion: noise shall not look like hunting
    double least = Math.max(2.0 * seen.leastPercent(), 0.5);
    double middle = trace.isEmpty() ? held : trace.spread().mean();
    return new Panel(
        caption,
        Axis.exactly("time held, s", start, end, TICKS),
        covering(POSITION, trace, DoubleStream.of(held, middle - least, middle + least)),
        List.of(setpoint(at(start, held), at(end, held)), line(shown, zero)),
        List.of(),
        List.of(),
        turning.stream()
            .map(i -> new Panel.Dot(trace.seconds(i) - zero, trace.percent(i), Marker.SQUARE))
            .toList());
  }

  private Caption caption(String what, String title, String description) {
    return new Caption(what + "-plot-" + drawn, title, description);
  }

  private static Sample at(double x, double y) {
    return new Sample(x, y, false);
  }

  private static Panel.Line setpoint(Sample... points) {
    return new Panel.Line(Stroke.SETPOINT, List.of(List.of(points)), false);
  }

  private Panel.Line line(Trace trace, double zeroSeconds) {
    List<Sample> samples = Sample.of(trace, zeroSeconds);
    return new Panel.Line(Stroke.POSITION, Decimation.unbroken(samples, gapSeconds), true);
  }

  private static Axis covering(String label, Trace trace, DoubleStream others) {
    DoubleStream values = IntStream.range(0, trace.size()).mapToDouble(trace::percent);
    return Axis.around(label, DoubleStream.concat(values, others), TICKS);
  }
}
