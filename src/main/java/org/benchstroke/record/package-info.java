/**
 * The journal of a run: append-only JSON Lines with a chained check value, written, read and
 * verified. Holds what was commanded, read, said and what failed, never a verdict. Knows the clock
 * only.
 */
package org.benchstroke.record;
