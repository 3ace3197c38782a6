package org.benchstroke.aids.twin;

/**
 * A value that was fitted, with the half-width of its 95 % interval. Immutable.
 *
 * @param value the value
 * @param half U, 95 %
 */
public record FittedValue(double value, double half) {}
