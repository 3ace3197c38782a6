/**
 * The files that a person writes about a bench and a unit type, read and checked. Knows the
 * instruments' roles and channels; opens none of them.
 */
package org.benchstroke.bench;
