/**
 * Traces and readings in, figures out: linearity, hysteresis, stroke time, motion. Pure: no file,
 * no instrument, no clock. Of ours it knows the quantities only.
 */
package org.benchstroke.core.analysis;
