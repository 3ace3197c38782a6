package org.benchstroke.app.stations;

import java.nio.file.Path;
import java.time.Instant;
import org.benchstroke.judge.Word;

/**
 * One attempt at a job, in a line.
 *
 * @param record its record
 * @param begun when, by the wall clock
 * @param word for the unit
 * @param whole whether the run was whole: only then it counts as found or as left
 * @param reason why the word
 */
public record AttemptLine(Path record, Instant begun, Word word, boolean whole, String reason) {}
