package org.benchstroke.io.instrument;

/**
 * One line that an instrument answered, or the time of a command that wants no answer.
 *
 * @param text the line without its end
 * @param askedNanos bench time when the message was sent
 * @param answeredNanos bench time when the line was complete
 */
public record TextReply(String text, long askedNanos, long answeredNanos) {}
