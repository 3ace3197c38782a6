/** Stroke time: full travel each way, timed. */
package org.benchstroke.tests.stroke;
