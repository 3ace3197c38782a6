package org.benchstroke.verdict;

/**
 * Something that is either as ordered or not: the action, the behaviour on loss of signal.
 *
 * @param what "action", "signal loss: open loop"
 * @param ordered what the unit type states, in words
 * @param found what was seen, in words with numbers
 * @param word pass, fail or no result
 * @param method id and version of the method
 */
public record AsOrdered(String what, String ordered, String found, Word word, String method) {}
