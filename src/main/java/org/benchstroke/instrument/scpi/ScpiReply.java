package org.benchstroke.instrument.scpi;

/**
 * One line that an instrument answered.
 *
 * @param text the line without its end
 * @param askedNanos bench time when the question was sent
 * @param answeredNanos bench time when the line was complete
 */
record ScpiReply(String text, long askedNanos, long answeredNanos) {}
