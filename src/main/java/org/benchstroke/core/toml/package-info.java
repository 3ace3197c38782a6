/**
 * TOML with the line of every key: all mistakes of a file are found at once, and each is told with
 * what was found and what is allowed.
 */
package org.benchstroke.core.toml;
