package org.benchstroke.aids.twin;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.apache.commons.math3.distribution.TDistribution;
import org.apache.commons.math3.exception.MathIllegalArgumentException;
import org.apache.commons.math3.stat.regression.OLSMultipleLinearRegression;
import org.benchstroke.core.analysis.Direction;
import org.benchstroke.core.analysis.RestReading;
import org.benchstroke.judge.JudgedRun;

/**
 * What lies between the sensor and the stem: stem − feedback = a + b·s − bow·4s(1 − s) − d·play/2,
 * with s the travel and d the direction of the approach. Only an angle reference tells it. Ordinary
 * least squares (Commons Math). Immutable.
 *
 * @param play slack beyond the sensor, % of travel
 * @param bow what the sensor shows too much at mid travel, %
 */
record StemSide(FittedValue play, FittedValue bow) {
  private static final int INPUTS = 4;

  /** Empty without an angle reference, or with too few points of a travel error test. */
  static Optional<StemSide> of(JudgedRun run) {
    List<double[]> rows = new ArrayList<>();
    List<Double> values = new ArrayList<>();
    for (RestReading stem : run.stem()) {
      run.feedback().stream()
          .filter(
              f ->
                  f.setpointPercent() == stem.setpointPercent()
                      && f.direction() == stem.direction()
                      && f.cycle() == stem.cycle())
          .findFirst()
          .ifPresent(
              f -> {
                double share = f.setpointPercent() / 100.0;
                double way = stem.direction() == Direction.UP ? 1.0 : -1.0;
                rows.add(new double[] {share, -4.0 * share * (1.0 - share), -way / 2.0});
                values.add(stem.meanPercent() - f.meanPercent());
              });
    }
    long places = rows.stream().mapToDouble(r -> r[0]).distinct().count();
    if (places < INPUTS || rows.size() < 2 * INPUTS) {
      return Optional.empty();
    }
    double[] y = values.stream().mapToDouble(Double::doubleValue).toArray();
    try {
      OLSMultipleLinearRegression fit = new OLSMultipleLinearRegression();
      fit.newSampleData(y, rows.toArray(double[][]::new));
      double[] found = fit.estimateRegressionParameters();
      double[] standard = fit.estimateRegressionParametersStandardErrors();
      double k = new TDistribution(y.length - INPUTS).inverseCumulativeProbability(0.975);
      return Optional.of(
          new StemSide(
              new FittedValue(found[3], k * standard[3]),
              new FittedValue(found[2], k * standard[2])));
    } catch (MathIllegalArgumentException e) {
      // Points from one side only do not tell play from zero.
      return Optional.empty();
    }
  }
}
