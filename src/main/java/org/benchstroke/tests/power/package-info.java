/** Power loss: what it does when its motor supply fails and returns. */
package org.benchstroke.tests.power;
