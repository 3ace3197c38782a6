/** Recorded by hand: figures that a competent person takes with other means. */
package org.benchstroke.tests.byhand;
