/**
 * Instruments that speak Modbus TCP or RTU: their settings in a bench file, frames, matching, and
 * the registers. What a message says is j2mod's. Knows the roles, and no other language.
 */
package org.benchstroke.io.modbus;
