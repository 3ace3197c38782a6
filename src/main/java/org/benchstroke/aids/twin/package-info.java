/**
 * The twin of a unit: the physical model of {@code model}, fitted to what a run recorded; its
 * hidden settings with their uncertainty, how far it is from hunting, and how wide its dead band
 * should be. Pure; an aid beside the verdict and no part of it.
 */
package org.benchstroke.aids.twin;
