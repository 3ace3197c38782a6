/**
 * Dead band and resolution: staircases of small changes of the signal, and what both tell together.
 */
package org.benchstroke.tests.stairs;
