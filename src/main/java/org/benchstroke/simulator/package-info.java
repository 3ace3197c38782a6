/**
 * A bench that is not there: a unit model and the instruments around it, in the process on a
 * virtual clock ({@link org.benchstroke.simulator.SimulatedLinks}) or on sockets ({@link
 * org.benchstroke.simulator.SimulatorServer}). Makers, models and serial numbers are invented.
 */
package org.benchstroke.simulator;
