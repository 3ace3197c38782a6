package org.benchstroke.run;

import org.benchstroke.record.Event;

/**
 * How a run ended; what it measured is in its record.
 *
 * @param how the way it ended
 * @param reason in words
 * @param safe what became of the safe signal
 * @param benchSeconds how long it took on the bench clock, s
 * @param nominalSeconds the unit's nominal motion and the rest windows of what was done, s
 */
public record RunResult(
    RunEnded.How how,
    String reason,
    Event.MadeSafe safe,
    double benchSeconds,
    double nominalSeconds) {}
