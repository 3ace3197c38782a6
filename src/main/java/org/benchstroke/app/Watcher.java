package org.benchstroke.app;

import org.benchstroke.run.Spectator;

/**
 * Someone who watches a run.
 *
 * @param name what it is called where it is told: "the terminal"
 * @param spectator sees all of the run in its order, on a thread of its own
 */
public record Watcher(String name, Spectator spectator) {}
