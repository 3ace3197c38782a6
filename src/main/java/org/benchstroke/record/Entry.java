package org.benchstroke.record;

import java.time.Instant;

/**
 * One line of a record.
 *
 * @param number from 1, without gaps
 * @param nanos bench time since the record was opened
 * @param utc the wall clock, a label
 * @param event what happened
 */
public record Entry(long number, long nanos, Instant utc, Event event) {}
