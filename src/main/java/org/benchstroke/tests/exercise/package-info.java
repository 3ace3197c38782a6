/** Exercise: full strokes that loosen the unit and tell which way it goes; no figure is taken. */
package org.benchstroke.tests.exercise;
