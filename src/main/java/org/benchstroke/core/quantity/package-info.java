/**
 * Currents, positions, angles, ranges and accuracies, and how numbers are printed. No bare number
 * crosses a role's border. Knows no other package of ours.
 */
package org.benchstroke.core.quantity;
