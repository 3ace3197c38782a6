/**
 * The tests that there are: a catalogue, and a folder for each with its keys, its actions and its
 * judge. The folders don't know each other; what carries tests out or judges records names none of
 * them.
 */
package org.benchstroke.tests;
