/**
 * The unit type: what the order and the data sheet say of a unit, the limits that were agreed, and
 * the numbers of bench practice in force.
 */
package org.benchstroke.unit;
