/**
 * Bench tester for motorised valve actuators: a procedure is data, a run is a record, a verdict is
 * a pure function of the record. Each package below is a room with one purpose; they depend
 * downward only, which a test enforces.
 */
package org.benchstroke;
