/**
 * The physics of a quarter-turn unit, one class a piece of physics: {@link
 * org.benchstroke.core.model.UnitModel} steps them all. What turns it is a {@link
 * org.benchstroke.core.model.Drive}: a motor with a three-position controller, or air against a
 * spring with a positioner. Angles are at the output shaft, 0° at the closed end of the calibrated
 * span.
 *
 * <p>The equations, default values and ranges are common practice without a source; the way the
 * pieces are joined is the project's own.
 */
package org.benchstroke.core.model;
