package org.benchstroke.diagnosis;

/**
 * A sign that the run could show.
 *
 * @param sign the sign
 * @param seen whether it showed it, beyond the uncertainty of the figures
 * @param figures the numbers, in words
 */
public record Evidence(Sign sign, boolean seen, String figures) {}
