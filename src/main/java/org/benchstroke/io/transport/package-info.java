/**
 * Bytes to an endpoint and back by a deadline. Knows the clock, and nothing of what the bytes mean.
 */
package org.benchstroke.io.transport;
