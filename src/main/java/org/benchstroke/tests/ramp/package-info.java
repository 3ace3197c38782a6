/** Ramp: how the unit follows a setpoint that moves slowly. */
package org.benchstroke.tests.ramp;
