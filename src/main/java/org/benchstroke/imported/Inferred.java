package org.benchstroke.imported;

import org.benchstroke.procedure.TestSpec;

/**
 * A test that a file shows, where no procedure was given.
 *
 * @param test the test
 * @param keys its keys in a procedure file, each line ended
 * @param words what it is, for whoever reads the report
 */
public record Inferred(TestSpec test, String keys, String words) {}
