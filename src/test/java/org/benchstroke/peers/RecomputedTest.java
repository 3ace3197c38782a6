package org.benchstroke.peers;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.function.DoubleUnaryOperator;
import org.benchstroke.DebianProgram;
import org.benchstroke.core.analysis.Estimate;
import org.benchstroke.core.analysis.Estimate.Part;
import org.benchstroke.core.analysis.Estimate.Spreading;
import org.benchstroke.core.analysis.Figure;
import org.benchstroke.core.analysis.Linearity;
import org.benchstroke.core.analysis.PositionNoise;
import org.benchstroke.core.analysis.Spread;
import org.benchstroke.core.analysis.Step;
import org.benchstroke.core.analysis.StepResponse;
import org.benchstroke.core.analysis.StepShape;
import org.benchstroke.core.analysis.StraightLine;
import org.benchstroke.core.analysis.Trace;
import org.benchstroke.core.uncertainty.Budget;
import org.benchstroke.core.uncertainty.Component;
import org.benchstroke.core.uncertainty.CoverageFactor;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/** Our figures beside those that numpy and scipy compute from the same numbers. */
@Timeout(120)
class RecomputedTest {
  private static final ObjectMapper JSON = new ObjectMapper();
  private static final double PERIOD = 0.01;
  private static final Path PACKAGES = Path.of("/usr/lib/python3/dist-packages");

  @TempDir private Path folder;

  private JsonNode recomputed() throws IOException, InterruptedException {
    List<String> said =
        Peer.run(
            Peer.PYTHON.toString(), Peer.resource("recompute.py").toString(), folder.toString());
    return JSON.readTree(String.join("\n", said));
  }

  private static void require() {
    DebianProgram.requireFile("python3-numpy", PACKAGES.resolve("numpy"));
    DebianProgram.requireFile("python3-scipy", PACKAGES.resolve("scipy"));
  }

  private void write(String name, Map<String, Object> task) throws IOException {
    JSON.writeValue(folder.resolve(name + ".json").toFile(), task);
  }

  private static Trace trace(double seconds, DoubleUnaryOperator position) {
    Trace.Builder trace = Trace.builder(16);
    for (int i = -60; i * PERIOD <= seconds; i++) {
      trace.add(i * PERIOD, 0.0, position.applyAsDouble(i * PERIOD), false);
    }
    return trace.build();
  }

  private static Step step(double from, double to, double noise) {
    return new Step(0.0, 0.0, from, to, 0.3, new PositionNoise(noise, 0.0), 3.0 * PERIOD);
  }

  private static List<Double> seconds(Trace trace) {
    return trace.samples().stream().map(Trace.Sample::seconds).toList();
  }

  private static List<Double> percent(Trace trace) {
    return trace.samples().stream().map(Trace.Sample::percent).toList();
  }

  private StepResponse measured(String name, Trace trace, Step step) throws IOException {
    write(
        name,
        Map.of(
            "task", "step",
            "t", seconds(trace),
            "y", percent(trace),
            "at", step.seconds(),
            "from", step.fromPercent(),
            "to", step.toPercent(),
            "band", step.bandPercent()));
    return StepResponse.of(trace, step);
  }

  @Test
  void stepResponses() throws Exception {
    require();
    DoubleUnaryOperator ramp = t -> Math.max(0.0, Math.min(10.0, (t - 0.3037) * 6.0));
    Random random = new Random(11);
    StepResponse up =
        measured("up", trace(6.0, t -> 40.0 + ramp.applyAsDouble(t)), step(40, 50.1, 0.0));
    StepResponse down =
        measured("down", trace(6.0, t -> 60.0 - ramp.applyAsDouble(t)), step(60, 50, 0.0));
    StepResponse swinging =
        measured("swinging", trace(8.0, RecomputedTest::secondOrder), step(0, 10, 0.0));
    StepResponse noisy =
        measured(
            "noisy",
            trace(6.0, t -> 40.0 + ramp.applyAsDouble(t) + 0.005 * random.nextGaussian()),
            step(40, 50, 0.005));
    JsonNode theirs = recomputed();
    // Constant speed between samples: the same definition, 1e-9 s.
    agree(up, theirs.get("up"), 1e-9, 1e-9);
    agree(down, theirs.get("down"), 1e-9, 1e-9);
    // Ours follows the curvature between samples, theirs is straight: 0.1 ms of 10 ms intervals.
    agree(swinging, theirs.get("swinging"), 1.5e-4, 1e-2);
    // Theirs takes the two samples around a level, ours all near it: within three intervals U.
    for (String key : List.of("t63", "t86", "t98", "settling")) {
      Estimate ours = figure(noisy, key).estimate().orElseThrow();
      assertThat(ours.value())
          .as(key)
          .isCloseTo(theirs.get("noisy").get(key).asDouble(), within(3.0 * ours.halfWidth(0.95)));
    }
    assertThat(noisy.steadyStateError().value())
        .isCloseTo(theirs.get("noisy").get("error").asDouble(), within(1e-9));
  }

  /** ζ 0.6, ω_n 5 rad/s, 10 %. */
  private static double secondOrder(double t) {
    double d = Math.max(0.0, t);
    return 10.0 - 10.0 * Math.exp(-3.0 * d) * (Math.cos(4.0 * d) + 0.75 * Math.sin(4.0 * d));
  }

  private static Figure figure(StepResponse r, String key) {
    return switch (key) {
      case "t63" -> r.t63();
      case "t86" -> r.t86();
      case "t98" -> r.t98();
      case "rise" -> r.rise();
      case "settling" -> r.settling();
      case "overshoot" -> r.overshoot();
      default -> r.steadyStateError();
    };
  }

  private static void agree(StepResponse ours, JsonNode theirs, double inTime, double inPercent) {
    for (String key : List.of("t63", "t86", "t98", "rise", "settling")) {
      assertThat(figure(ours, key).value())
          .as(key)
          .isCloseTo(theirs.get(key).asDouble(), within(inTime));
    }
    for (String key : List.of("overshoot", "error")) {
      assertThat(figure(ours, key).value())
          .as(key)
          .isCloseTo(theirs.get(key).asDouble(), within(inPercent));
    }
  }

  @Test
  void firstOrderFit() throws Exception {
    require();
    Random random = new Random(12);
    Trace trace =
        trace(
            6.0,
            t ->
                40.0
                    + 10.0 * -Math.expm1(-Math.max(0.0, t - 0.3) / 0.4)
                    + 0.02 * random.nextGaussian());
    Step step = step(40.0, 50.0, 0.02);
    StepResponse response = StepResponse.of(trace, step);
    StepShape.Fit ours = StepShape.of(trace, step, response).best().orElseThrow();
    double took = Math.max(response.t98().value(), response.settling().value());
    Trace window = trace.between(-0.1 * took, 2.0 * took);
    // No more samples than the fit takes as they are.
    assertThat(window.size()).isLessThanOrEqualTo(400);
    write(
        "fit",
        Map.of(
            "task", "first order",
            "t", seconds(window),
            "y", percent(window),
            "start", List.of(0.28, 0.45, 40.0, 10.0)));
    JsonNode theirs = recomputed().get("fit");
    assertThat(ours.kind()).isEqualTo(StepShape.Kind.FIRST_ORDER);
    for (int i = 0; i < 4; i++) {
      StepShape.Parameter p = ours.parameters().get(i);
      double deviation = theirs.get("sd").get(i).asDouble();
      // The two stop a small part of a deviation apart; ours widens for correlated residuals.
      assertThat(p.value())
          .as(p.name())
          .isCloseTo(theirs.get("p").get(i).asDouble(), within(0.01 * deviation));
      assertThat(p.standard() / deviation).as("u of " + p.name()).isBetween(0.99, 1.3);
    }
  }

  @Test
  void lines() throws Exception {
    require();
    List<double[]> curves = new ArrayList<>();
    double[] x = new double[11];
    for (int i = 0; i < x.length; i++) {
      x[i] = 10.0 * i;
    }
    for (int seed = 0; seed < 20; seed++) {
      Random random = new Random(seed);
      double[] y = new double[x.length];
      for (int i = 0; i < y.length; i++) {
        y[i] = 0.3 + 0.01 * x[i] + 0.2 * random.nextGaussian();
      }
      curves.add(y);
      write("line" + seed, Map.of("task", "line", "x", x, "y", y));
    }
    JsonNode theirs = recomputed();
    for (int seed = 0; seed < curves.size(); seed++) {
      sameLine(x, curves.get(seed), theirs.get("line" + seed));
    }
  }

  private static void sameLine(double[] x, double[] y, JsonNode theirs) {
    StraightLine line = StraightLine.fit(x, y);
    close(line.slope(), theirs.get("slope"), 1e-9);
    close(line.intercept(), theirs.get("intercept"), 1e-9);
    close(line.slopeStandard(), theirs.get("slope_sd"), 1e-9);
    close(line.interceptStandard(), theirs.get("intercept_sd"), 1e-9);
    close(line.residualDeviation(), theirs.get("residual"), 1e-9);
    List<Linearity.Point> points = new ArrayList<>();
    for (int i = 0; i < x.length; i++) {
      points.add(new Linearity.Point(x[i], y[i]));
    }
    close(Linearity.independent(points).deviation(), theirs.get("minimax"), 1e-9);
    close(Math.abs(Linearity.terminal(points).deviation()), theirs.get("terminal"), 1e-9);
    // Theirs searches the slope by steps.
    close(Math.abs(Linearity.zeroBased(points).deviation()), theirs.get("zero"), 1e-6);
  }

  @Test
  void statistics() throws Exception {
    require();
    Random random = new Random(13);
    double[] y = new double[200];
    for (int i = 0; i < y.length; i++) {
      y[i] = 50.0 + 0.01 * random.nextGaussian();
    }
    double[] u = {0.02, 0.05, 0.03, 0.01};
    double[] nu = {9.0, 4.0, 19.0, 2.0};
    double[][] pairs = {{1.0, 0.1}, {1.0, 1.0}, {0.2, 1.0}, {5.0, 0.05}};
    write("statistics", Map.of("task", "statistics", "y", y, "u", u, "nu", nu, "pairs", pairs));
    JsonNode theirs = recomputed().get("statistics");
    Spread spread = Spread.of(y);
    close(spread.mean(), theirs.get("mean"), 1e-12);
    close(spread.deviation(), theirs.get("sd"), 1e-9);
    close(spread.range(), theirs.get("range"), 1e-9);
    List<Component> components = new ArrayList<>();
    for (int i = 0; i < u.length; i++) {
      components.add(Component.typeA("part " + i, u[i], nu[i]));
    }
    Budget budget = new Budget("%", components);
    close(budget.effectiveDegreesOfFreedom(), theirs.get("nu"), 1e-9);
    close(budget.expand().k(), theirs.get("k"), 1e-8);
    for (int degrees = 1; degrees <= 30; degrees++) {
      close(CoverageFactor.of(0.95, degrees), theirs.get("t").get(degrees - 1), 1e-8);
    }
    for (int i = 0; i < pairs.length; i++) {
      Part bound = new Part("bound", Spreading.RECTANGULAR, pairs[i][0] / Math.sqrt(3.0));
      Part noise = new Part("noise", Spreading.NORMAL, pairs[i][1]);
      double ours = new Estimate(0.0, List.of(bound, noise), 0.0).halfWidth(0.95);
      close(ours, theirs.get("width").get(i), 1e-6);
    }
  }

  private static void close(double ours, JsonNode theirs, double relative) {
    double value = theirs.asDouble();
    assertThat(ours).isCloseTo(value, within(relative * Math.max(1e-3, Math.abs(value))));
  }
}
