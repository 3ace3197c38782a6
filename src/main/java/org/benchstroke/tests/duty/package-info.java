/** Duty: as many starts an hour as the unit is made for, and what drifts meanwhile. */
package org.benchstroke.tests.duty;
