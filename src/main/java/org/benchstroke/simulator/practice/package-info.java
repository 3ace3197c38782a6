/**
 * Simulated units with hidden faults, run on the virtual clock: to practise on, and to count on.
 */
package org.benchstroke.simulator.practice;
