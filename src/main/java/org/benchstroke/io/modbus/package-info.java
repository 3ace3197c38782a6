/**
 * Instruments that speak Modbus TCP: framing, matching, and the registers that a bench file names.
 * Knows the roles, and no other language.
 */
package org.benchstroke.io.modbus;
