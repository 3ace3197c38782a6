/**
 * Instruments that speak SCPI (IEEE 488.2, SCPI-1999), and their settings in a bench file. Knows
 * the roles, and no other language.
 */
package org.benchstroke.io.scpi;
