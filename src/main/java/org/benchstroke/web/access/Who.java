package org.benchstroke.web.access;

/**
 * Somebody at the screen who has said who they are. Immutable.
 *
 * @param name as it goes into records
 * @param right the most that they may do
 */
public record Who(String name, Right right) {}
