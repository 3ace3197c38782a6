package org.benchstroke.archive;

/**
 * How many jobs of a unit type passed at their first whole run; simulated ones don't count.
 *
 * @param unitType the unit type's name
 * @param jobs that had a whole run
 * @param firstPasses those whose first whole run passed
 */
public record YieldLine(String unitType, int jobs, int firstPasses) {}
