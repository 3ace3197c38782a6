package org.benchstroke.papers;

import java.util.ArrayList;
import java.util.List;
import java.util.function.IntToDoubleFunction;
import java.util.stream.DoubleStream;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.benchstroke.aids.twin.Curve;
import org.benchstroke.aids.twin.FittedValue;
import org.benchstroke.aids.twin.Misfit;
import org.benchstroke.aids.twin.Parameter;
import org.benchstroke.aids.twin.Twin;
import org.benchstroke.core.analysis.Trace;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.papers.Block.Cell;
import org.benchstroke.papers.plot.Axis;
import org.benchstroke.papers.plot.Caption;
import org.benchstroke.papers.plot.Decimation.Sample;
import org.benchstroke.papers.plot.Drawing;
import org.benchstroke.papers.plot.Panel;
import org.benchstroke.papers.plot.Stroke;

/** The twin of a unit in a report: what was fitted, how well, what follows. Stateless. */
final class TwinSection {
  private static final String TITLE = "Twin: a model fitted to this run";
  private static final int TICKS = 6;

  private TwinSection() {}

  static Section of(Twin twin) {
    List<Block> blocks = new ArrayList<>();
    twin.words().forEach(words -> blocks.add(new Block.Paragraph(words)));
    if (!twin.fitted()) {
      return new Section(TITLE, blocks);
    }
    blocks.add(
        new Block.Grid(
            "Settings of the model with which it repeats the run best; U at 95 %.",
            List.of("Setting", "Value", "± U", "From"),
            twin.parameters().stream().map(TwinSection::row).toList()));
    twin.misfit().ifPresent(m -> blocks.add(new Block.Paragraph(misfit(m))));
    List<Drawing> panels = new ArrayList<>();
    for (int i = 0; i < twin.curves().size(); i++) {
      panels.addAll(panels(twin.curves().get(i), i + 1, twin));
    }
    if (!panels.isEmpty()) {
      blocks.add(new Block.Panels(panels));
    }
    return new Section(TITLE, blocks);
  }

  private static List<Cell> row(Parameter p) {
    return List.of(
        Cell.name(p.title(), ""),
        Cell.number(p.found().map(f -> value(f) + " " + p.unit()).orElse(Figures.NONE)),
        Cell.number(p.found().map(f -> half(f) + " " + p.unit()).orElse(Figures.NONE)),
        Cell.text(p.note()));
  }

  private static String value(FittedValue found) {
    return Numbers.fixed(found.value(), Figures.decimals(found.half()));
  }

  private static String half(FittedValue found) {
    return Figures.half(found.half());
  }

  private static String misfit(Misfit m) {
    return "Measured less modelled over "
        + m.moves()
        + " moves: "
        + Numbers.significant(m.rmsPercent(), 2)
        + " % of travel (root of the mean square); noise at rest "
        + Numbers.significant(m.noisePercent(), 2)
        + " %. That is "
        + Numbers.fixed(m.ratio(), 2)
        + " times what noise, the scatter of its stops and the instants of the readings explain; up"
        + " to "
        + Numbers.plain(Misfit.MOST)
        + " the model is believed. Solid: measured; dotted: modelled; dashed: the setpoint. Beside"
        + " each the difference; hatched: ± 2 standard deviations of the noise at rest.";
  }

  private static List<Drawing> panels(Curve curve, int number, Twin twin) {
    String title = rounded(curve.fromPercent()) + " % to " + rounded(curve.toPercent()) + " %";
    double band = 2.0 * twin.misfit().map(Misfit::noisePercent).orElse(0.0);
    return List.of(
        both(curve, number, title).drawing(), difference(curve, number, title, band).drawing());
  }

  private static List<Sample> samples(Curve curve, IntToDoubleFunction percent) {
    Trace trace = curve.measured();
    return IntStream.range(0, trace.size())
        .mapToObj(
            i ->
                new Sample(
                    trace.seconds(i) - curve.atSeconds(),
                    percent.applyAsDouble(i),
                    trace.saturated(i)))
        .toList();
  }

  private static Panel both(Curve curve, int number, String title) {
    List<Sample> measured = samples(curve, i -> curve.measured().percent(i));
    List<Sample> modelled = samples(curve, i -> curve.modelled().get(i));
    List<Sample> setpoint =
        List.of(
            new Sample(0.0, curve.fromPercent(), false),
            new Sample(0.0, curve.toPercent(), false),
            new Sample(end(measured), curve.toPercent(), false));
    Stream<Sample> all = Stream.of(setpoint, measured, modelled).flatMap(List::stream);
    return new Panel(
        new Caption(
            "twin-plot-" + number,
            title,
            "Measured and modelled position after the setpoint changed from " + title + "."),
        sinceChange(measured),
        Axis.around("position, % of travel", all.mapToDouble(Sample::value), TICKS),
        List.of(
            new Panel.Line(Stroke.SETPOINT, List.of(setpoint), false),
            new Panel.Line(Stroke.POSITION, List.of(measured), false),
            new Panel.Line(Stroke.MODEL, List.of(modelled), false)));
  }

  private static Panel difference(Curve curve, int number, String title, double band) {
    List<Sample> left = samples(curve, i -> curve.measured().percent(i) - curve.modelled().get(i));
    DoubleStream bands = DoubleStream.of(-2.0 * band, 2.0 * band);
    return new Panel(
        new Caption(
            "twin-residual-plot-" + number,
            title + ", measured − modelled",
            "Measured less modelled position."),
        sinceChange(left),
        Axis.around(
            "residual, % of travel",
            DoubleStream.concat(bands, left.stream().mapToDouble(Sample::value)), TICKS),
        List.of(new Panel.Line(Stroke.POSITION, List.of(left), false)),
        List.of(new Panel.Zone(-band, band, false)),
        List.of(),
        List.of());
  }

  private static Axis sinceChange(List<Sample> samples) {
    return Axis.exactly("time since the change, s", 0.0, end(samples), TICKS);
  }

  private static double end(List<Sample> samples) {
    return Math.max(0.5, samples.get(samples.size() - 1).seconds());
  }

  private static String rounded(double percent) {
    return Numbers.plain(Math.rint(percent * 100.0) / 100.0);
  }
}
