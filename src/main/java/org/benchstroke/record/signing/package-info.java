/**
 * The key pair of a bench, and texts that are signed with it: Ed25519 (RFC 8032) as the JDK has it.
 * Knows neither records nor people.
 */
package org.benchstroke.record.signing;
