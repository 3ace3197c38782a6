/**
 * Plots as SVG text, drawn by the program itself: no fonts or graphics system of the machine is
 * asked, so the same data give the same bytes anywhere.
 */
package org.benchstroke.papers.plot;
