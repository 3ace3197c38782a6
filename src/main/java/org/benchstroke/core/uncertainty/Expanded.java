package org.benchstroke.core.uncertainty;

/**
 * An expanded uncertainty (JCGM 100:2008 clause 6, annex G).
 *
 * @param standard combined standard uncertainty u_c
 * @param degreesOfFreedom effective degrees of freedom; may be infinite
 * @param coverage the probability p, 0.95 unless stated
 * @param k the coverage factor t_p(ν_eff)
 * @param half U = k·u_c
 */
public record Expanded(
    double standard, double degreesOfFreedom, double coverage, double k, double half) {}
