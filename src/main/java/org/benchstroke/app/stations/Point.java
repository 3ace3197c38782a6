package org.benchstroke.app.stations;

/**
 * A sample for a live plot.
 *
 * @param seconds of bench time since the record was opened, s
 * @param setpoint in force, % of travel; NaN without a signal
 * @param position % of travel
 */
public record Point(double seconds, double setpoint, double position) {}
