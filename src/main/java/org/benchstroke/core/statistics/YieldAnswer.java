package org.benchstroke.core.statistics;

/** A share of units, or why there is none. */
public sealed interface YieldAnswer permits Yield, NoAnswer {}
