/**
 * The stations of a bench, each a state machine that any screen can show and drive: what is on it,
 * what is asked, how its run goes, how it ended. A screen asks for the state and hands on what a
 * person does; nothing here knows what a page is.
 */
package org.benchstroke.app.stations;
