package org.benchstroke.core.statistics;

/** A study of bias and linearity, or why there is none. */
public sealed interface LinearityAnswer permits BiasStudy, NoAnswer {}
