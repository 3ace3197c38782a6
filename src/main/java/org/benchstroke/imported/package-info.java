/**
 * Takes what others recorded, as comma-separated values, into the form of a record, so that it is
 * judged like a run of this program. What a file can't show is left out and named, never made up.
 * It names no test: each says itself how it is found ({@link org.benchstroke.imported.TestInFile}).
 */
package org.benchstroke.imported;
