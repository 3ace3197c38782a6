package org.benchstroke.run;

import org.benchstroke.record.Event;

/**
 * How a run ended; what it measured is in its record.
 *
 * @param how the way it ended
 * @param reason in words
 * @param recorded whether the whole record was written; where not, the reason says why not
 * @param safe what became of the safe signal
 * @param sourced whether the source was ever commanded anything
 * @param testSeconds how long the completed tests took on the bench clock, s
 * @param nominalSeconds the unit's nominal motion and the rest windows in them, s
 */
public record RunResult(
    RunEnded.How how,
    String reason,
    boolean recorded,
    Event.MadeSafe safe,
    boolean sourced,
    double testSeconds,
    double nominalSeconds) {}
