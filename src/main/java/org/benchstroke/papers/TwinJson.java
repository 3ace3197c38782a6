package org.benchstroke.papers;

import org.benchstroke.aids.twin.FittedValue;
import org.benchstroke.aids.twin.Misfit;
import org.benchstroke.aids.twin.Parameter;
import org.benchstroke.aids.twin.Twin;

/** A twin for other programs. What was not found has no value. Stateless. */
final class TwinJson {
  private TwinJson() {}

  static Fields of(Twin twin) {
    return new Fields()
        .with("fitted", twin.fitted())
        .with("parameters", twin.parameters().stream().map(TwinJson::parameter).toList())
        .with("margin_to_hunting_pct", twin.margin().map(TwinJson::found))
        .with("least_start_pct", twin.leastStartPercent())
        .with("misfit", twin.misfit().map(TwinJson::misfit))
        .with("words", twin.words());
  }

  private static Fields parameter(Parameter p) {
    return new Fields()
        .with("key", p.key())
        .with("title", p.title())
        .with(p.found().map(TwinJson::found).orElseGet(Fields::new))
        .with("unit", p.unit())
        .with("note", p.note());
  }

  private static Fields found(FittedValue found) {
    return new Fields().with("value", found.value()).with("u", found.half());
  }

  private static Fields misfit(Misfit misfit) {
    return new Fields()
        .with("moves", misfit.moves())
        .with("rms_pct", misfit.rmsPercent())
        .with("noise_pct", misfit.noisePercent())
        .with("ratio", misfit.ratio())
        .with("stop_scatter_pct", misfit.stopScatterPercent())
        .with("explained", misfit.explained());
  }
}
