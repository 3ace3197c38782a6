/**
 * The physics of a motorised quarter-turn unit with a three-position controller, one class a piece
 * of physics: {@link org.benchstroke.model.UnitModel} steps them all. Angles are at the output
 * shaft, 0° at the closed end of the calibrated span.
 *
 * <p>The equations, default values and ranges are common practice without a source; the way the
 * pieces are joined is the project's own.
 */
package org.benchstroke.model;
