/** Step response: steps of stated sizes about one place, up and down. */
package org.benchstroke.tests.steps;
