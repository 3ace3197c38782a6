package org.benchstroke.core.statistics;

/** A study of a gauge, or why there is none. */
public sealed interface StudyAnswer permits GaugeStudy, NoAnswer {}
