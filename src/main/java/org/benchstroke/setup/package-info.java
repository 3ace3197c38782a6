/**
 * A unit set up by a person before its test: the steps as data, a state machine that any face can
 * call, what is read live meanwhile, and the arithmetic of a switch's angle. It shows nothing, asks
 * nobody and never waits for a person: whoever drives it shows its {@link
 * org.benchstroke.setup.SetUpState} and gives it {@link org.benchstroke.setup.SetUpAnswer answers}.
 * It knows roles, the bench and the unit type; no procedure's test, no verdict.
 */
package org.benchstroke.setup;
