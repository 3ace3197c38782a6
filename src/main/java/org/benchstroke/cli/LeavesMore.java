package org.benchstroke.cli;

/**
 * A command that does more than print: a unit was tested, files were written. Its exit code stays
 * the truth about that where standard output failed; any other command has then not done what it
 * was asked for.
 */
interface LeavesMore {}
