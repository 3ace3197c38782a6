package org.benchstroke.papers.plot;

import java.util.OptionalDouble;

/**
 * A limit drawn as lines, with its guard band inside.
 *
 * @param label its name in the legend, "limit ±1 %"
 * @param low the lower limit
 * @param high the upper one
 * @param guard the width of the guard band, 0 for none
 * @param guardLabel its name in the legend
 */
public record Band(
    String label, OptionalDouble low, OptionalDouble high, double guard, String guardLabel) {}
