/**
 * Plots, laid out by the program itself into pictures that are data, and a canvas that draws one as
 * SVG text: no fonts or graphics system of the machine is asked, so the same data give the same
 * bytes anywhere. Another canvas draws the same pictures.
 */
package org.benchstroke.papers.plot;
