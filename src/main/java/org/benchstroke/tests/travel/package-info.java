/**
 * Travel error: the error at setpoints that are approached from both sides, by the feedback and by
 * the stem; hysteresis, dead band of both together, linearity, repeatability.
 */
package org.benchstroke.tests.travel;
