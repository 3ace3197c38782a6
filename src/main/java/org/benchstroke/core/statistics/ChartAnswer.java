package org.benchstroke.core.statistics;

/** A control chart, or why there is none. */
public sealed interface ChartAnswer permits ControlChart, NoAnswer {}
