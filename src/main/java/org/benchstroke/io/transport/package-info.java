/**
 * Bytes to an endpoint and back by a deadline, and where that is as files say it. Knows the core,
 * and nothing of what the bytes mean.
 */
package org.benchstroke.io.transport;
