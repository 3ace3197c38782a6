/** Hunting: whether the unit stays at rest where it is held. */
package org.benchstroke.tests.holds;
