/**
 * The tests that there are: a catalogue, and a folder for each with its keys, its actions, its
 * judge and what finds it in files of others. The folders don't know each other; what carries tests
 * out, judges records or takes files of others names none of them.
 */
package org.benchstroke.tests;
