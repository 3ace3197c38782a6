package org.benchstroke.papers;

import java.util.ArrayList;
import java.util.List;
import java.util.function.IntToDoubleFunction;
import java.util.stream.DoubleStream;
import java.util.stream.IntStream;
import org.benchstroke.aids.twin.Curve;
import org.benchstroke.aids.twin.FittedValue;
import org.benchstroke.aids.twin.Misfit;
import org.benchstroke.aids.twin.Parameter;
import org.benchstroke.aids.twin.Twin;
import org.benchstroke.core.analysis.Trace;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.papers.Block.Cell;
import org.benchstroke.papers.plot.Axis;
import org.benchstroke.papers.plot.Decimation.Sample;
import org.benchstroke.papers.plot.Panel;
import org.benchstroke.papers.plot.Stroke;

/** The twin of a unit in a report: what was fitted, how well, what follows. Stateless. */
final class TwinSection {
  private static final String TITLE = "Twin: a model fitted to this run";
  private static final int TICKS = 6;

  private TwinSection() {}

  static Section of(Twin twin) {
    List<Block> blocks = new ArrayList<>();
    twin.words().forEach(words -> blocks.add(new Block.Paragraph(words, false)));
    if (!twin.fitted()) {
      return new Section(TITLE, blocks);
    }
    blocks.add(
        new Block.Grid(
            "Settings of the model with which it repeats the run best; U at 95 %.",
            List.of("Setting", "Value", "± U", "From"),
            twin.parameters().stream().map(TwinSection::row).toList()));
    twin.misfit().ifPresent(m -> blocks.add(new Block.Paragraph(misfit(m), false)));
    List<Block.Picture> panels = new ArrayList<>();
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
    return Numbers.fixed(found.half(), Figures.decimals(found.half()));
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

  private static List<Block.Picture> panels(Curve curve, int number, Twin twin) {
    List<Sample> measured = samples(curve, i -> curve.measured().percent(i));
    List<Sample> modelled = samples(curve, i -> curve.modelled().get(i));
    List<Sample> left = samples(curve, i -> curve.measured().percent(i) - curve.modelled().get(i));
    String title = rounded(curve.fromPercent()) + " % to " + rounded(curve.toPercent()) + " %";
    double band = 2.0 * twin.misfit().map(Misfit::noisePercent).orElse(0.0);
    Panel both = both(curve, number, title, measured, modelled);
    Panel difference = difference(number, title, left, band);
    return List.of(
        new Block.Picture(both.title(), both.svg()),
        new Block.Picture(difference.title(), difference.svg()));
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

  private static Panel both(
      Curve curve, int number, String title, List<Sample> measured, List<Sample> modelled) {
    List<Sample> setpoint =
        List.of(
            new Sample(0.0, curve.fromPercent(), false),
            new Sample(0.0, curve.toPercent(), false),
            new Sample(end(measured), curve.toPercent(), false));
    return new Panel(
        "twin-plot-" + number,
        title,
        "Measured and modelled position after the setpoint changed from " + title + ".",
        sinceChange(measured),
        around(
            "position, % of travel",
            DoubleStream.concat(
                DoubleStream.of(curve.fromPercent(), curve.toPercent()),
                values(measured, modelled))),
        List.of(
            new Panel.Line(Stroke.SETPOINT, List.of(setpoint), false),
            new Panel.Line(Stroke.POSITION, List.of(measured), false),
            new Panel.Line(Stroke.MODEL, List.of(modelled), false)),
        List.of(),
        List.of(),
        List.of());
  }

  private static Panel difference(int number, String title, List<Sample> left, double band) {
    return new Panel(
        "twin-residual-plot-" + number,
        title + ", measured − modelled",
        "Measured less modelled position.",
        sinceChange(left),
        around(
            "residual, % of travel",
            DoubleStream.concat(DoubleStream.of(-2.0 * band, 2.0 * band), values(left, left))),
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

  private static DoubleStream values(List<Sample> one, List<Sample> other) {
    return DoubleStream.concat(
        one.stream().mapToDouble(Sample::value), other.stream().mapToDouble(Sample::value));
  }

  private static Axis around(String label, DoubleStream values) {
    double[] all = values.toArray();
    double low = DoubleStream.of(all).min().orElse(0.0);
    double high = DoubleStream.of(all).max().orElse(1.0);
    double margin = Math.max(0.06 * (high - low), 0.005);
    return Axis.exactly(label, low - margin, high + margin, TICKS);
  }
}
