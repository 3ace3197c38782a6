/** Endurance: many full strokes, and what changes from the first to the last. */
package org.benchstroke.tests.endurance;
