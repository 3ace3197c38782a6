/** Supply: its voltage at rest and while the motor starts and runs. */
package org.benchstroke.tests.supply;
