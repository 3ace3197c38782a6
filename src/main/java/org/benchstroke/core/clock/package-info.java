/**
 * The bench's time: the machine's clocks, or a virtual one that moves only when told to. The only
 * room that may ask the system for the time. Knows no other package of ours.
 */
package org.benchstroke.core.clock;
