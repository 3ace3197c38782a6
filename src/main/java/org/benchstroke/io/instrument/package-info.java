/**
 * What instruments do on a bench, as small roles in the trade's words, what a reading carries, and
 * what a driver brings. Knows bytes and the core; the languages are in packages of their own.
 */
package org.benchstroke.io.instrument;
