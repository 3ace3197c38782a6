/**
 * The commands. The only room that prints, reads the keyboard and sets exit codes; nobody else
 * knows it.
 */
package org.benchstroke.cli;
