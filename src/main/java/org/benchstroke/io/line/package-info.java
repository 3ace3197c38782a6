/**
 * Instruments that are asked and answer in lines of text, word for word as a bench file has them.
 * Knows the roles, and no other language.
 */
package org.benchstroke.io.line;
