package org.benchstroke.core.statistics;

/** The capability of a process, or why there is none. */
public sealed interface CapabilityAnswer permits Capability, NoAnswer {}
