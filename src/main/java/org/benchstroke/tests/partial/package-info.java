/** Partial stroke: off its end to a part of the travel, and back. */
package org.benchstroke.tests.partial;
