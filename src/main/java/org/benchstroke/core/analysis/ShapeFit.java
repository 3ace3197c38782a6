package org.benchstroke.core.analysis;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import org.benchstroke.core.analysis.StepShape.Fit;
import org.benchstroke.core.analysis.StepShape.Kind;
import org.benchstroke.core.analysis.StepShape.Parameter;
import org.benchstroke.core.quantity.Numbers;

/** The working of {@link StepShape}. One thread. */
final class ShapeFit {
  private static final int MOST_POINTS = 400;
  private static final int LEAST_POINTS = 12;
  private static final double WINDOW = 2.0;
  private static final double TIMES_NOISE = 3.0;
  private static final double SHARE_OF_CHANGE = 0.01;
  private static final double LEAST = 1.0e-4;
  private static final double MOST_CORRELATED = 0.99;

  /** A simpler shape is as good as one that leaves this much less. */
  private static final double AS_GOOD = 1.02;

  private final double[] seconds;
  private final double[] percent;
  private final Step step;
  private final double stampHalf;

  private ShapeFit(double[] seconds, double[] percent, Step step, double stampHalf) {
    this.seconds = seconds;
    this.percent = percent;
    this.step = step;
    this.stampHalf = stampHalf;
  }

  static StepShape of(Trace trace, Step step, StepResponse response) {
    for (Figure needed : List.of(response.finish(), response.t63(), response.t86())) {
      if (!needed.isPresent()) {
        return StepShape.none(needed.reason());
      }
    }
    double took =
        Math.max(
            response.t98().isPresent() ? response.t98().value() : 1.5 * response.t86().value(),
            response.settling().isPresent() ? response.settling().value() : 0.0);
    Trace window = trace.between(step.seconds() - 0.1 * took, step.seconds() + WINDOW * took);
    Optional<String> unfit =
        TraceGuards.gap(window, step.longestPauseSeconds()).or(() -> TraceGuards.saturated(window));
    if (unfit.isPresent()) {
      return StepShape.none(unfit.get());
    }
    if (window.size() < LEAST_POINTS) {
      return StepShape.none(
          "sampling insufficient: "
              + window.size()
              + " samples of the response, where a fit takes "
              + LEAST_POINTS);
    }
    return thinned(window, step).shape(response);
  }

  /** Means of as many neighbouring samples as it takes. */
  private static ShapeFit thinned(Trace window, Step step) {
    int each = (window.size() + MOST_POINTS - 1) / MOST_POINTS;
    int points = window.size() / each;
    double[] seconds = new double[points];
    double[] percent = new double[points];
    for (int i = 0; i < points; i++) {
      for (int j = i * each; j < (i + 1) * each; j++) {
        seconds[i] += (window.seconds(j) - step.seconds()) / each;
        percent[i] += step.sign() * window.percent(j) / each;
      }
    }
    return new ShapeFit(seconds, percent, step, window.stampHalfSeconds(0));
  }

  private StepShape shape(StepResponse response) {
    List<Fit> fits = new ArrayList<>();
    for (Kind kind : Kind.values()) {
      fitted(kind, response).ifPresent(fits::add);
    }
    if (fits.isEmpty()) {
      return StepShape.none("no shape could be fitted");
    }
    double noise = step.noise().standard();
    // First and second order: the more parameters, the less is left, even of noise alone.
    fits.sort(
        Comparator.comparingDouble(
            f ->
                Math.hypot(f.residualPercent(), noise / 10.0)
                    * (f.kind() == Kind.FIRST_ORDER ? 1.0 : AS_GOOD)));
    double change = Math.abs(response.finish().value() - response.start().value());
    double allowed = Math.max(TIMES_NOISE * noise, SHARE_OF_CHANGE * change);
    double left = fits.get(0).residualPercent();
    if (left <= allowed) {
      return new StepShape(fits, true, "");
    }
    return new StepShape(
        fits,
        false,
        "not explained: "
            + fits.get(0).kind().text()
            + " comes nearest and leaves "
            + Numbers.significant(left, 2)
            + " %, where "
            + Numbers.significant(allowed, 2)
            + " % is allowed");
  }

  /** The best of the starts. */
  private Optional<Fit> fitted(Kind kind, StepResponse response) {
    Fit best = null;
    for (double[] start : starts(kind, response)) {
      Optional<Fit> fit = from(kind, start);
      if (fit.isPresent()
          && (best == null || fit.get().residualPercent() < best.residualPercent())) {
        best = fit.get();
      }
    }
    return Optional.ofNullable(best);
  }

  private List<double[]> starts(Kind kind, StepResponse response) {
    double before = step.sign() * response.start().value();
    double change = step.sign() * response.finish().value() - before;
    double t63 = response.t63().value();
    double t86 = response.t86().value();
    double span = Math.max(t86 - t63, 1.0e-3 * t86);
    return switch (kind) {
      case CONSTANT_SPEED -> {
        double speed = change * (Math.exp(-1.0) - Math.exp(-2.0)) / span;
        double dead = Math.max(0.0, t63 - change * (1.0 - Math.exp(-1.0)) / speed);
        double coast = 0.1 * change / speed;
        yield List.of(
            new double[] {dead, speed, coast, before, change},
            new double[] {dead, 1.2 * speed, 5.0 * coast, before, change});
      }
      case FIRST_ORDER -> List.of(new double[] {Math.max(0.0, t63 - span), span, before, change});
      case SECOND_ORDER ->
          List.of(
              new double[] {0.8 * t63 - 0.5 * span, 0.6, 1.3 / span, before, change},
              new double[] {0.3 * t63, 1.0, 2.0 / t63, before, change},
              new double[] {Math.max(0.0, t63 - span), 1.5, 3.0 / span, before, change});
    };
  }

  private Optional<Fit> from(Kind kind, double[] start) {
    return CurveFit.of(
            (p, t) -> ShapeModel.at(kind, p, t), p -> bounded(kind, p), start, seconds, percent)
        .map(fit -> named(kind, fit));
  }

  /** Keeps each parameter where the model means something. */
  private double[] bounded(Kind kind, double[] at) {
    double[] kept = at.clone();
    double window = seconds[seconds.length - 1];
    kept[0] = Math.max(-window, Math.min(window, at[0]));
    for (int i = 1; i < at.length - 2; i++) {
      kept[i] = Math.max(LEAST, at[i]);
    }
    int change = at.length - 1;
    kept[change] = Math.max(LEAST, at[change]);
    if (kind == Kind.CONSTANT_SPEED) {
      // The coast at its longest is the whole motion.
      kept[2] = Math.min(kept[2], 2.0 * kept[change] / kept[1]);
    }
    return kept;
  }

  private Fit named(Kind kind, CurveFit fit) {
    // Residuals that follow each other count for fewer: n·(1 − r)/(1 + r) of n, as of a first order
    // autoregressive series (texts on time series; from memory).
    double r = Math.max(0.0, Math.min(MOST_CORRELATED, fit.correlation()));
    double wider = Math.sqrt((1.0 + r) / (1.0 - r));
    double instants = Math.hypot(stampHalf, step.halfSeconds()) / Math.sqrt(3.0);
    List<String> names = ShapeModel.names(kind);
    List<Parameter> parameters = new ArrayList<>();
    for (int i = 0; i < fit.size(); i++) {
      String name = names.get(i);
      double value = name.equals("before") ? step.sign() * fit.parameter(i) : fit.parameter(i);
      double standard = wider * fit.standard(i);
      parameters.add(
          new Parameter(
              name,
              ShapeModel.unit(name),
              value,
              i == 0 ? Math.hypot(standard, instants) : standard));
    }
    return new Fit(kind, parameters, fit.residual(), fit.degreesOfFreedom());
  }
}
