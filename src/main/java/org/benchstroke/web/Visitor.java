package org.benchstroke.web;

/**
 * Who sends a request. Immutable.
 *
 * @param name as it is shown and recorded; empty where nobody has to say who it is, and a job asks
 *     for it
 * @param browser tells this browser from every other one, for as long as it is open; not a secret
 *     that opens anything
 * @param right the furthest of the rights
 */
public record Visitor(String name, String browser, Right right) {
  /** Whether a right is among those of the visitor. */
  public boolean may(Right wanted) {
    return right.compareTo(wanted) >= 0;
  }
}
