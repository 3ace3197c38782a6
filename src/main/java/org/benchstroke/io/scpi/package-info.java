/** Instruments that speak SCPI (IEEE 488.2, SCPI-1999). Knows the roles, and no other language. */
package org.benchstroke.io.scpi;
