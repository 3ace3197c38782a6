/** Switches: at which angle each trips and resets, and in which order. */
package org.benchstroke.tests.switches;
