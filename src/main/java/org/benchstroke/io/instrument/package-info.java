/**
 * What instruments do on a bench, as small roles in the trade's words, and what a reading carries.
 * Knows bytes, time and quantities; the languages are in packages of their own.
 */
package org.benchstroke.io.instrument;
