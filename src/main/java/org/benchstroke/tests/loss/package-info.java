/** Signal loss: what the unit does on each way of losing its signal. */
package org.benchstroke.tests.loss;
